package hear

import (
	"math"
	"slices"
	"sort"

	"earshot/dsp"
	"earshot/shutter"
)

// class is a number of sounds taken for the same movement.
type class struct {
	sounds  []sound   // of the clip
	members []int     // in time order
	centre  sound     // the median of the members
	dist    []float64 // of every sound of the clip to the centre, NaN until asked for
	weights []float64 // of every sound of the clip, NaN until asked for
	squares float64   // sum of the squared distances of the members
	spread  float64   // RMS distance of the members
	others  []float64 // sorted distances of as loud sounds that are not members
}

// Distances between sounds, in dB.
const (
	levelScale  = 3.0  // dB of level that count for one of spectral shape
	priorSpread = 3.5  // expected spread of a class
	likeSpread  = 1.75 // expected spread of one thing heard again
	priorWeight = 3    // members that either expectation counts for
	asLoud      = 10.0 // sounds this much weaker than a class are not compared with it
)

// enoughOthers is how many sounds are enough to tell how unusual a class is. Of a clip with
// more, which has some 150 firings, only every second or third is looked at.
const enoughOthers = 4096

func (r *recordedClip) class(members []int) *class {
	n := len(r.sounds)
	c := &class{sounds: r.sounds, members: members, centre: r.centre(members),
		dist: slices.Repeat([]float64{math.NaN()}, n), weights: slices.Repeat([]float64{math.NaN()}, n), others: make([]float64, 0, min(n, enoughOthers))}
	for _, i := range members {
		c.squares += square(c.distance(i))
	}
	c.spread = c.scatter(priorSpread)
	for i := 0; i < n; i += 1 + n/enoughOthers {
		if _, member := slices.BinarySearch(members, i); !member && r.sounds[i].level > c.centre.level-asLoud {
			c.others = append(c.others, c.distance(i))
		}
	}
	slices.Sort(c.others)
	return c
}

// scatter is the RMS distance of the members, drawn towards prior where they are few.
func (c *class) scatter(prior float64) float64 {
	return math.Sqrt((c.squares + priorWeight*square(prior)) / float64(len(c.members)+priorWeight))
}

// distance is that of sound i to the centre.
func (c *class) distance(i int) float64 {
	if math.IsNaN(c.dist[i]) {
		c.dist[i] = distance(&c.sounds[i], &c.centre)
	}
	return c.dist[i]
}

// centre is the median of the members' spectra, each taken against its level.
func (r *recordedClip) centre(members []int) sound {
	values := make([]float64, len(members))
	middle := func(of func(*sound) float64) float64 {
		for k, m := range members {
			values[k] = of(&r.sounds[m])
		}
		return shutter.Median(values)
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

// weight is the logarithm of the odds that sound i is of the class: the likelihood of its
// distance for a member, against the share of the other sounds that are as near.
func (c *class) weight(i int) float64 {
	const unlike, surest = -6, 5
	if math.IsNaN(c.weights[i]) {
		d := c.distance(i)
		chance := float64(sort.SearchFloat64s(c.others, d)+1) / float64(len(c.others)+1)
		member := -square(d/c.spread)/2 - math.Log(c.spread/priorSpread)
		c.weights[i] = within(member-math.Log(chance), unlike, surest)
	}
	return c.weights[i]
}

// distance is how unlike two sounds are in level and in the shape of their spectra. Which
// part of a sound is the loudest changes from time to time, so the part of a that is most
// like b counts.
func distance(a, b *sound) float64 {
	shape := a.spectrum.Unlike(b.spectrum)
	if a.second != nil {
		shape = min(shape, a.second.Unlike(b.spectrum))
	}
	return math.Sqrt(square(shape) + square((a.level-b.level)/levelScale))
}
