package scene

import (
	"math"
	"slices"

	"earshot/dsp"
)

// neutral is how unlike two sounds are, dB, that tells nothing of whether they are of one
// class: of 71 recordings made by other means a quarter of the pairs of openings are less
// alike than 3.3 dB, and a quarter of pairs of an opening with another sound more than 4.6.
const neutral = 4

// class is what the openings, the closings and the release of one shutter are like.
type class struct {
	n                     float64 // firings it was learned from
	open, close           *dsp.Spectrum
	openLevel, closeLevel float64 // dBFS
	lead                  float64 // ms from a release to the opening; 0 for none
}

// learn makes a class of an explanation.
func (c *clip) learn(arcs []*arc) *class {
	k := &class{n: float64(len(arcs))}
	var openLevels, closeLevels, leads []float64
	var opens, closes []*dsp.Spectrum
	for _, a := range arcs {
		o, cl := &c.s[a.open], &c.s[a.close]
		if o.like != nil {
			opens = append(opens, o.like)
		}
		if cl.like != nil {
			closes = append(closes, cl.like)
		}
		openLevels, closeLevels = append(openLevels, o.loud), append(closeLevels, cl.loud)
		if a.release >= 0 {
			leads = append(leads, c.leadOf(a))
		}
	}
	if c.focal { // two curtains are one class
		opens = append(opens, closes...)
		closes = opens
	}
	k.open, k.close = centre(opens), centre(closes)
	k.openLevel, k.closeLevel = median(openLevels), median(closeLevels)
	if 2*len(leads) > len(arcs) {
		k.lead = median(leads)
	}
	return k
}

// leadOf is the time from the release of an arc to its opening, ms.
func (c *clip) leadOf(a *arc) float64 { return float64(c.s[a.open].at-c.s[a.release].at) * c.ms }

// levelled is a spectrum at a mean of 0 dB, its noise moved along.
func levelled(p *dsp.Spectrum) *dsp.Spectrum {
	mean := float32(0)
	for _, b := range p.Bands {
		mean += b / dsp.NumBands
	}
	m := *p
	for i := range m.Bands {
		m.Bands[i] -= mean
		m.Noise[i] -= mean
	}
	return &m
}

// centre is the median of levelled spectra, nil of none.
func centre(p []*dsp.Spectrum) *dsp.Spectrum {
	if len(p) == 0 {
		return nil
	}
	m := new(dsp.Spectrum)
	x, y := make([]float64, len(p)), make([]float64, len(p))
	for i := range m.Bands {
		for j := range p {
			x[j], y[j] = float64(p[j].Bands[i]), float64(p[j].Noise[i])
		}
		m.Bands[i], m.Noise[i] = float32(median(x)), float32(median(y))
	}
	return m
}

// unlike is how much two spectra differ in shape, dB; neutral where either is not known.
func unlike(a, b *dsp.Spectrum) float64 {
	if a == nil || b == nil {
		return neutral
	}
	return a.Unlike(b)
}

// hold fills in the features that need a class; nil: none is known yet.
func (c *clip) hold(k *class) {
	for i := range c.s {
		c.unlikeOpen[i], c.unlikeClose[i] = neutral, neutral
		if k != nil {
			c.unlikeOpen[i], c.unlikeClose[i] = unlike(c.s[i].like, k.open), unlike(c.s[i].like, k.close)
		}
	}
	for i := range c.arcs {
		a := &c.arcs[i]
		for _, f := range ofClass {
			a.f[f] = 0
		}
		if k != nil {
			c.compare(a, k)
		}
	}
}

// compare fills in the features of one arc that need a class. What few firings teach counts
// less.
func (c *clip) compare(a *arc, k *class) {
	trust := k.n / (k.n + 2)
	o, cl := c.unlikeOpen, c.unlikeClose
	set := func(f int, x, lo, hi float64) { a.f[f] = float32(trust * within(x, lo, hi)) }
	set(fLikeOpen, (neutral-o[a.open])/2, -1.5, 1)
	set(fLikeClose, (neutral-cl[a.close])/2, -1.5, 1)
	set(fCrossOpen, (cl[a.open]-o[a.open])/2, -1, 1)
	set(fCrossClose, (o[a.close]-cl[a.close])/2, -1, 1)
	set(fLevelOpen, math.Abs(c.s[a.open].loud-k.openLevel)/10, 0, 1.5)
	set(fLevelClose, math.Abs(c.s[a.close].loud-k.closeLevel)/10, 0, 1.5)
	if a.release >= 0 {
		set(fReleaseLike, (neutral-cl[a.release])/2, -1.5, 1)
	}
	switch {
	case k.lead > 0 && a.release >= 0:
		set(fLead, 1-math.Abs(c.leadOf(a)-k.lead)/5, -1, 1)
	case k.lead > 0 || a.release >= 0:
		set(fLead, -1, -1, 1)
	}
}

func within(x, lo, hi float64) float64 { return math.Min(math.Max(x, lo), hi) }

// median is the usual median, 0 of none. x is left as it is.
func median(x []float64) float64 {
	if len(x) == 0 {
		return 0
	}
	y := slices.Clone(x)
	slices.Sort(y)
	return (y[(len(y)-1)/2] + y[len(y)/2]) / 2
}
