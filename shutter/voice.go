package shutter

import (
	"math"
	"slices"
	"sort"

	"earshot/dsp"
)

// voice is what the openings and the closings of one shutter sound like, and how
// unusual that is among the other sounds of the clip.
type voice struct {
	open, close *class
	alike       float64 // evidence against what does not buzz, for being alike
	lead        float64 // s from a reflex's first sound to the opening; 0 where there is none
	r           *room
}

// Bounds of the time from a reflex's release, on which the blades close, to the
// opening for the exposure, and how well one camera keeps to its own, in s
// (common practice, no source: 60 to 100 ms).
const (
	shortestLead = 0.04
	longestLead  = 0.15
	leadScatter  = 0.003
	fewestLeads  = 3 // openings from which a lead shows by being the same
)

// voice learns what a shutter sounds like from a set of its firings, at least one.
func (r *room) voice(set []pair) *voice {
	var opens, closes []int
	for _, p := range set {
		opens = append(opens, p.open)
		closes = append(closes, p.close)
	}
	v := &voice{open: r.class(opens), close: r.class(closes), r: r}
	v.alike = alikeness(v.open, v.close)
	v.lead = v.findLead(opens)
	return v
}

// findLead is the time by which the openings come after the sounds of a reflex's
// release, where most of them do by nearly the same: the blades close with the
// sound of a closing, or drowned by what the mirror does. It is 0 where there is
// no such lead. Of few openings it takes the likeness to the closings to tell.
func (v *voice) findLead(opens []int) float64 {
	var leads []float64
	for _, i := range opens {
		for j := i - 1; j >= 0 && v.r.sounds[i].at-v.r.sounds[j].at < longestLead; j-- {
			if v.releases(i, j) && (len(opens) >= fewestLeads || v.close.weight(j) > 0) {
				leads = append(leads, v.r.sounds[i].at-v.r.sounds[j].at)
			}
		}
	}
	slices.Sort(leads)
	best, most := 0.0, len(opens)/2
	for i := range leads {
		n := sort.SearchFloat64s(leads, leads[i]+4*leadScatter) - i
		if n > most {
			best, most = leads[i+n/2], n
		}
	}
	return best
}

// releases tells whether sound j may be one of the release before opening i.
func (v *voice) releases(i, j int) bool {
	s, open := &v.r.sounds[j], &v.r.sounds[i]
	return open.at-s.at >= shortestLead && s.surprise() > 0 && s.level > open.level-asLoud
}

// release looks before an opening for the sound of a reflex's release, and returns
// it and the evidence that it is that, as a logarithm of odds, 0 for none: how well
// the lead fits, against one by chance, and how like it is to the blades closing.
func (v *voice) release(open int) (sound int, weight float64) {
	if v.lead == 0 {
		return 0, 0
	}
	at := v.r.sounds[open].at
	for i := open - 1; i >= 0 && at-v.r.sounds[i].at < longestLead; i-- {
		if !v.releases(open, i) {
			continue
		}
		lead := at - v.r.sounds[i].at
		w := math.Log(normal((lead-v.lead)/leadScatter) / leadScatter * (longestLead - shortestLead))
		w += within(v.close.weight(i), 0, v.r.sounds[i].surprise())
		if w > weight {
			sound, weight = i, w
		}
	}
	return sound, weight
}

// likeness is the evidence for p from how like this shutter its ends sound, as a
// logarithm of odds. One end that is not more like than chance rules it out: what
// would be the other's fellow is another sound.
func (v *voice) likeness(p *pair) float64 {
	const toChance, ruledOut, unreleased = -0.5, -20, -6
	open := v.open.weight(p.open)
	if open < toChance {
		return ruledOut
	}
	close := v.close.weight(p.close)
	if close < toChance {
		return ruledOut
	}
	sum := open + close - v.alike*(1-p.heard())
	if v.lead == 0 {
		return sum
	}
	if _, w := v.release(p.open); w > 0 {
		return sum + w
	}
	return sum + unreleased
}

// alikeness is the evidence against firings without a buzz whose openings sound
// like their closings: two of a kind are more likely a clock, or somebody knocking.
func alikeness(open, close *class) float64 {
	const distinct, slope, most = 2.2, 4, 5
	apart := distance(&open.centre, &close.centre) / math.Hypot(open.spread, close.spread) * math.Sqrt2
	return within((distinct-apart)*slope, 0, most)
}

// distance is how unlike two sounds are, in the shape of their spectra and in
// level. Of several parts now the one and now the other is the loudest, so the
// part of a that is most like b counts.
func distance(a, b *sound) float64 {
	shape := unlikeness(a.spectrum, b.spectrum)
	if a.second != nil {
		shape = min(shape, unlikeness(a.second, b.spectrum))
	}
	return math.Sqrt(square(shape) + square((a.level-b.level)/levelScale))
}

// class is a number of sounds taken for the same movement.
type class struct {
	sounds  []sound   // of the clip
	members []int     // in time order
	centre  sound     // the median of the members
	dist    []float64 // of every sound of the clip to the centre, NaN until asked for
	spread  float64   // RMS distance of the members
	others  []float64 // sorted distances of as loud sounds that are not members
}

// Distances between sounds, in dB.
const (
	levelScale  = 3.0  // dB of level that count for one of spectral shape
	priorSpread = 3.5  // of a class of which little is known,
	priorWeight = 3    // with the weight of so many members
	asLoud      = 10.0 // sounds this much weaker than a class are no rivals
)

// enoughOthers is how many sounds tell well enough how unusual a class is: of a clip
// with more, which has some 150 firings, only every second is asked, or every third.
const enoughOthers = 4096

func (r *room) class(members []int) *class {
	n := len(r.sounds)
	c := &class{sounds: r.sounds, members: members, centre: r.centre(members),
		dist: slices.Repeat([]float64{math.NaN()}, n), others: make([]float64, 0, min(n, enoughOthers))}
	sum := 0.0
	for _, i := range members {
		sum += square(c.distance(i))
	}
	c.spread = math.Sqrt((sum + priorWeight*square(priorSpread)) / float64(len(members)+priorWeight))
	for i := 0; i < n; i += 1 + n/enoughOthers {
		if _, member := slices.BinarySearch(members, i); !member && r.sounds[i].level > c.centre.level-asLoud {
			c.others = append(c.others, c.distance(i))
		}
	}
	slices.Sort(c.others)
	return c
}

// distance is that of sound i to the centre.
func (c *class) distance(i int) float64 {
	if math.IsNaN(c.dist[i]) {
		c.dist[i] = distance(&c.sounds[i], &c.centre)
	}
	return c.dist[i]
}

// centre is the median of the members' spectra, each taken against its level.
func (r *room) centre(members []int) sound {
	values := make([]float64, len(members))
	middle := func(of func(*sound) float64) float64 {
		for k, m := range members {
			values[k] = of(&r.sounds[m])
		}
		return median(values)
	}
	centre := sound{level: middle(func(s *sound) float64 { return s.level }), spectrum: new(dsp.Spectrum)}
	for b := range dsp.NumBands {
		band := middle(func(s *sound) float64 { return float64(s.spectrum.Bands[b]) - s.level })
		noise := middle(func(s *sound) float64 { return float64(s.spectrum.Noise[b]) - s.level })
		centre.spectrum.Bands[b] = float32(centre.level + band)
		centre.spectrum.Noise[b] = float32(centre.level + noise)
	}
	return centre
}

// most is the distance from the centre within which most of the members lie.
func (c *class) most() float64 {
	var own []float64
	for _, m := range c.members {
		own = append(own, c.distance(m))
	}
	slices.Sort(own)
	return own[len(own)*3/4]
}

// weight is the logarithm of the odds that sound i is of the class: its likelihood
// as a member against how many of the other sounds are as near by chance.
func (c *class) weight(i int) float64 {
	const unlike, surest = -6, 5
	d := c.distance(i)
	chance := float64(sort.SearchFloat64s(c.others, d)+1) / float64(len(c.others)+1)
	member := -square(d/c.spread)/2 - math.Log(c.spread/priorSpread)
	return within(member-math.Log(chance), unlike, surest)
}
