package dsp

import (
	"math"
	"slices"
)

// Levels, against the loudest part of a movement.
const (
	stopFraction  = 0.1    // −10 dB: the first part this loud is the end stop
	startFraction = 0.0006 // −32 dB: what is weaker is no start of a movement
)

// Times, in s, of the envelope that the parts of a movement are told from.
const (
	partBin    = 0.00025 // its resolution
	partReach  = 0.009   // how long before its loudest part a movement may begin
	pickBefore = 0.002   // a part is looked for this long before where it is in the mean
	pickAfter  = 0.0005  // and this long behind
)

// Movements are like sounds, each of a start and an end stop. Times are in
// samples from the start of the clip.
type Movements struct {
	Start, Stop []float64
	U           []float64 // standard uncertainty of each of them against the others, samples
	Bias        float64   // standard uncertainty that all have in common, samples

	// Lead is by how many samples the start comes before the end stop, 0 where
	// they are one sound. Depth is how far below the end stop a start would
	// still have been heard, dB.
	Lead, Depth float64
}

// Movements looks again at sounds that are taken for the same movement made
// again and again, given where the loudest part of each begins. All are aligned
// with each other, and the start and the end stop of the movement are found in
// the median of their envelopes, in which noise is weaker and what is not common
// to most has no part. Each is then placed by its own alignment, and the whole
// class by the median of the picks of all, so that intervals between sounds of
// one class are known far better than a single pick is.
//
// Reference: VanDecar, J. C. and Crosson, R. S. (1990). Determination of
// teleseismic relative phase arrival times using multi-channel cross-correlation
// and least squares. Bulletin of the Seismological Society of America 80(1).
func LocateMovements(src Source, channel int, loudest []float64) (*Movements, error) {
	rate := float64(src.Format().Rate)
	at := int(alignBefore * rate)
	n := at + int(alignAfter*rate)
	var x [][]float64
	var origin []float64
	for _, t := range loudest {
		from := int64(math.Round(t)) - int64(at)
		e, err := Excerpt(src, channel, from, n)
		if err != nil {
			return nil, err
		}
		x, origin = append(x, e), append(origin, float64(from))
	}
	return align(rate, x, origin, at).movements(), nil
}

func (a *aligned) movements() *Movements {
	start, stop, depth := a.parts()
	m := &Movements{Depth: depth}
	m.Start, m.U, m.Bias = a.place(start, math.Inf(-1))
	m.Stop = m.Start
	if stop-start > pickAfter*a.rate {
		m.Stop, _, _ = a.place(stop, start+pickAfter*a.rate/2)
		var leads []float64
		for i := range m.Start {
			leads = append(leads, m.Stop[i]-m.Start[i])
		}
		m.Lead = median(leads)
	}
	return m
}

// parts finds start and end stop in the median of the envelopes, in samples from
// the common instant, and how far below the stop a start would have been seen, dB.
// The start is the first part that is louder than all that was heard in the time
// before a movement can have begun: noise, and beats of an escapement, which come
// at another time before every closing.
func (a *aligned) parts() (start, stop, depth float64) {
	bin := max(4, int(math.Round(partBin*a.rate)))
	before := int(alignBefore*a.rate) / bin
	envelope := a.medianEnvelope(bin, before, int(alignAfter*a.rate)/bin)
	peak := slices.Max(envelope[before-int(partReach*a.rate)/bin:])
	if peak == 0 {
		return 0, 0, 0
	}
	reach := int(partReach*a.rate) / bin
	last := before - reach
	for envelope[last] < stopFraction*peak {
		last++
	}
	from := max(1, last-reach)
	threshold := math.Max(slices.Max(envelope[:from])*a.significant(bin), startFraction*peak)
	first := last
	for i := last - 1; i > from; i-- {
		if envelope[i] > threshold && envelope[i-1] > threshold {
			first = i - 1
		}
	}
	at := func(i int) float64 { return float64((i - before) * bin) }
	return at(first), at(last), 10 * math.Log10(peak/threshold)
}

// significant is the factor by which the median of a bin's power must exceed the
// loudest before the movement to be a part of it: a standard deviation, since that
// loudest one is far out already. A power over k independent samples has a
// relative standard deviation of √(2/k), and the median of n values 1.25 times
// that of their mean, √(1/n).
func (a *aligned) significant(bin int) float64 {
	return 1 + 1.25*math.Sqrt(2/float64(bin)/float64(len(a.x)))
}

// medianEnvelope is the median over the sounds of their power in bins, each
// sound's loudest bin set to 1.
func (a *aligned) medianEnvelope(bin, before, after int) []float64 {
	powers := make([][]float64, before+after)
	for i, x := range a.x {
		y := cut(x, a.shift[i], before*bin, after*bin)
		loudest := 0.0
		for k := range powers {
			loudest = math.Max(loudest, meanSquare(y[k*bin:(k+1)*bin]))
		}
		if loudest == 0 {
			continue
		}
		for k := range powers {
			powers[k] = append(powers[k], meanSquare(y[k*bin:(k+1)*bin])/loudest)
		}
	}
	envelope := make([]float64, len(powers))
	for k, p := range powers {
		envelope[k] = median(p)
	}
	return envelope
}

// place picks one part of the movement, which lies at part from the common
// instant, in every sound: at its own pick where the sounds are not alike enough
// to be aligned, else where the picks of all have it. Nothing before earliest is
// looked at.
func (a *aligned) place(part, earliest float64) (at, u []float64, bias float64) {
	var picks, us, offsets []float64
	for i, x := range a.x {
		from := int(a.shift[i] + math.Max(part-pickBefore*a.rate, earliest))
		to := int(a.shift[i] + part + pickAfter*a.rate)
		from, to = min(max(from, 0), len(x)), min(max(to, 0), len(x))
		pick, pu, ok := pickOnset(x[from:max(from, to)])
		if !ok {
			pick, pu = a.shift[i]+part-float64(from), partBin*a.rate
		}
		picks, us = append(picks, float64(from)+pick), append(us, math.Max(pu, 0.3))
		offsets = append(offsets, picks[i]-a.shift[i])
	}
	offset := median(offsets)
	scatter := spreadAbout(offsets, offset)
	for i := range a.x {
		t, ui := picks[i], us[i]
		switch common := a.shift[i] + offset; {
		case len(a.x) < 3:
		case a.likeness[i] >= trustedLikeness:
			t, ui = common, a.fineness(i)
		case math.Abs(t-common) > pickAfter*a.rate: // another part of the sound was picked
			t, ui = common, pickAfter*a.rate
		}
		at, u = append(at, a.origin[i]+t), append(u, ui)
	}
	return at, u, scatter * 1.25 / math.Sqrt(float64(len(offsets)))
}

// fineness is the standard uncertainty of an alignment by correlation, in
// samples: the Cramér–Rao bound for a signal that stands ρ²/(1−ρ²) over what
// differs, taken over a band of half the sampled one.
func (a *aligned) fineness(i int) float64 {
	rho := math.Min(a.likeness[i], 0.9999)
	snr := rho * rho / (1 - rho*rho)
	n := (fineBefore + fineAfter) * a.rate
	const bandwidth = math.Pi / 2 / 1.7320508 // rad a sample, RMS of a flat band to a quarter of the rate
	return 1 / (bandwidth * math.Sqrt(snr*n/2))
}

// spreadAbout is the standard deviation about centre as told by the median
// absolute deviation, 1.4826 times which it is for a normal distribution.
func spreadAbout(x []float64, centre float64) float64 {
	var d []float64
	for _, v := range x {
		d = append(d, math.Abs(v-centre))
	}
	return 1.4826 * median(d)
}

// median is the middle of x, 0 for none. x is left as it is.
func median(x []float64) float64 {
	if len(x) == 0 {
		return 0
	}
	y := slices.Clone(x)
	slices.Sort(y)
	return (y[(len(y)-1)/2] + y[len(y)/2]) / 2
}
