package hear

import (
	"math"

	"earshot/shutter"
	"earshot/shutter/hear/timing"
)

// heard is how certain it is that an escapement buzzed between the ends, 0 to 1. It is by how
// much louder, or how much more steadily, it sounded between than around, and by how much
// weaker that was than the ends. A sound that is only steady counts by half: it may be a
// background that changed.
func (p *pair) heard() float64 {
	steadily := within((p.steady-steadyFrom)/steadyFrom, 0, 1) / 2
	return math.Max(within((p.buzz-1)/buzzCertain, 0, 1), steadily) * within((p.margin-3)/(buzzUnder-3), 0, 1)
}

const (
	buzzCertain = 4   // dB over what is around that make a buzz certain
	buzzUnder   = 10  // dB under the ends at which nothing between is too loud for one
	steadyFrom  = 4   // standard deviations over what is around that are no chance
	steadyOver  = 0.7 // dB: the background may change by less
)

// loudestBetween is the level of the loudest hop between two sounds, leaving out
// the ringing of the first and the start of the second.
func (r *recordedClip) loudestBetween(from, to float64) float64 {
	loudest := math.Inf(-1)
	first, end := r.clip.Between(from+timing.SameSound, to-timing.SameSound)
	for ; first < end && float64(first)*r.clip.Step()-from < timing.Ringing; first++ {
		loudest = math.Max(loudest, past(r.clip.Track().Peak(first), float64(first)*r.clip.Step()-from))
	}
	if first < end {
		loudest = math.Max(loudest, r.clip.Track().Loudest(first, end))
	}
	return loudest
}

// buzz is how much louder it is between the ends than before and after, dB. Each level is
// the median of the frames, which stray sounds don't change. Right before the opening,
// where a reflex may make sounds, it is the lower quartile. The first part of the span is
// left out, since the opening still rings there. The closing rings as long, and so as much
// is left out after it; its ringing is corrected to the level of the opening. With it comes
// the level, dBFS, that a buzz would have had to exceed to be heard: the louder of the
// levels before and after, but no more than the level between.
func (r *recordedClip) buzz(a, b *sound) (buzz, quiet float64) {
	const shortest, around, soon = 0.1, 0.5, 0.15
	span := b.at - a.at
	if span < shortest {
		return 0, math.Inf(-1)
	}
	ring := math.Max(0.03, 0.4*math.Min(span, around))
	inside := r.clip.Level(a.at+ring, b.at-timing.SameSound, 0.5)
	before := math.Max(r.clip.Level(a.at-around, a.at, 0.5), r.clip.Level(a.at-soon, a.at, 0.25))
	after := r.clip.Level(b.at+ring, b.at+math.Min(span, around), 0.5) + math.Max(0, a.level-b.level)
	quiet = math.Max(before, after)
	if math.IsInf(inside, -1) || math.IsInf(quiet, -1) {
		return 0, quiet
	}
	return inside - quiet, math.Min(inside, quiet)
}

// steady is by how many standard deviations the median of the mean levels of frames between
// the ends exceeds that before and after. A buzz drowned in noise adds to the power of the
// noise. It is 0 where there are too few frames, or where the background may change as much.
func (r *recordedClip) steady(a, b *sound) float64 {
	const around, ring, enough = 0.5, 0.2, 10 // s, s, frames
	inside, ok1 := r.middle(a.at+math.Min(ring, 0.4*(b.at-a.at)), b.at-timing.SameSound)
	before, ok2 := r.middle(a.at-around, a.at-timing.SameSound)
	after, ok3 := r.middle(b.at+ring, b.at+ring+around)
	if !ok1 || !ok2 || !ok3 || inside.n < enough || before.n < enough || after.n < enough {
		return 0
	}
	quiet := before
	if after.level > before.level {
		quiet = after
	}
	over := inside.level - quiet.level
	if over < steadyOver {
		return 0
	}
	sd := math.Max(inside.sd, quiet.sd)
	return over / (sd * medianError * math.Sqrt(1/float64(inside.n)+1/float64(quiet.n)))
}

// medianError is the standard deviation of the median of many values, over that of
// their mean, for a normal distribution.
const medianError = 1.2533

// middle is the median of the mean levels of n frames, dBFS, and how they spread.
type middle struct {
	level, sd float64
	n         int
}

func (r *recordedClip) middle(from, to float64) (m middle, ok bool) {
	const quartiles = 1.349 // standard deviations from the lower to the upper
	first, end := r.clip.Between(from, to)
	if first >= end {
		return m, false
	}
	q := func(p float64) float64 { return r.clip.Track().MeanQuantile(first, end, p) }
	return middle{q(0.5), math.Max(q(0.75)-q(0.25), 0.2) / quartiles, end - first}, true
}

// buzzOf is what was heard of the escapement between the ends of p.
func (r *recordedClip) buzzOf(p *pair) shutter.Buzz {
	const audible = 2 // dB: the level that half of the frames stay under is told to half of that
	if p.buzz < audible {
		return shutter.Buzz{}
	}
	a, b := &r.sounds[p.open], &r.sounds[p.close]
	inside := r.clip.Level(a.at+timing.Ringing, b.at, 0.5)
	return shutter.Buzz{Heard: true, Level: inside - math.Min(a.level, b.level)}
}
