package hear

import (
	"math"

	"earshot/shutter"
)

const (
	// handScatter is the standard uncertainty, in s, with which a person sets one end
	// of a firing on the picture of a sound (common practice, no source).
	handScatter = 0.001
	// asHeard is how near, in s, an end must be to the one heard to be no other, and
	// mostAsHeard how near where times are coarse. An editor may keep times to the
	// sample, 0.125 ms apart at 8 kHz, and nobody sets an end as finely as that.
	asHeard     = 0.0001
	mostAsHeard = 0.0005
	// nearby is how far from a firing heard, in s, one set by hand may lie to be the
	// same (common practice, no source).
	nearby = 0.05

	noTwin = -1
)

// Correct takes the firings set by hand, in time order and each opening after the one
// before has closed, in place of those heard; step is the last digit of their times,
// s. One whose ends lie where they were heard, as far as the times tell, is the
// firing heard, with its uncertainty; one that was moved keeps how the
// escapement beat, and one that is new has nothing.
func (h Heard) Correct(set []shutter.HandTimed, step float64) shutter.Corrected {
	var (
		c         shutter.Corrected
		longest   float64
		tolerance = math.Min(math.Max(asHeard, step/2), mostAsHeard)
		twins     = h.twins(set, tolerance)
		heard     = make([]bool, len(h.Firings))
	)
	for _, t := range set {
		longest = math.Max(longest, span(t))
	}
	for i, t := range set {
		if k := twins[i]; k != noTwin {
			heard[k] = true
			if isAt(t, h.Firings[k], tolerance) {
				c.AsHeard++
				c.Firings = append(c.Firings, h.Firings[k])
				continue
			}
		}
		c.Firings = append(c.Firings, h.setByHand(t, twins[i], step, longest))
		if twins[i] == noTwin {
			c.Added++
		} else {
			c.Moved++
		}
	}
	for k, f := range h.Firings {
		if !heard[k] {
			c.LeftOut = append(c.LeftOut, f)
		}
	}
	return c
}

// setByHand makes a firing of one set by hand in place of firing twin, or of noTwin.
// Both its ends are taken to be set, since they are timed by one edge. How its blades
// moved and where its buzz falters was heard from other ends on, and is not kept.
func (h Heard) setByHand(t shutter.HandTimed, twin int, step, longest float64) shutter.Firing {
	f := shutter.Firing{Clip: h.clip, Open: t.Open, Closed: t.Closed, Edge: shutter.EdgeHand}
	if t.Closed {
		f.Close = t.Close
		f.U = math.Sqrt2 * math.Hypot(handScatter, step/math.Sqrt(12))
	}
	if twin != noTwin {
		f.Buzz = h.Firings[twin].Buzz
		f.Buzz.Falters = nil
	}
	one := []shutter.Firing{f}
	h.unheard.mark(one, longest)
	return one[0]
}

// twins finds the firing heard that each of those set by hand stands for, or noTwin:
// itself if it is among them, else the one left that it shares most time with, or
// comes nearest to. No two stand for one.
func (h Heard) twins(set []shutter.HandTimed, tolerance float64) []int {
	twins, taken := make([]int, len(set)), make([]bool, len(h.Firings))
	find := func(i int, likeness func(f shutter.Firing) float64, least float64) {
		best := noTwin
		for k, f := range h.Firings {
			if x := likeness(f); !taken[k] && x > least {
				best, least = k, x
			}
		}
		if twins[i] = best; best != noTwin {
			taken[best] = true
		}
	}
	for i, t := range set {
		find(i, func(f shutter.Firing) float64 {
			if isAt(t, f, tolerance) {
				return 1
			}
			return 0
		}, 0)
	}
	for i, t := range set {
		if twins[i] == noTwin {
			find(i, func(f shutter.Firing) float64 { return shared(t, f) }, -nearby)
		}
	}
	return twins
}

// isAt tells whether both ends lie where they were heard.
func isAt(t shutter.HandTimed, f shutter.Firing, tolerance float64) bool {
	return t.Closed == f.Closed && math.Abs(t.Open-f.Open) <= tolerance && (!t.Closed || math.Abs(t.Close-f.Close) <= tolerance)
}

// shared is the time in s in which both were open, below 0 by how far they lie apart.
func shared(t shutter.HandTimed, f shutter.Firing) float64 {
	return math.Min(t.Open+span(t), f.Open+f.Duration()) - math.Max(t.Open, f.Open)
}

func span(t shutter.HandTimed) float64 {
	if !t.Closed {
		return 0
	}
	return t.Close - t.Open
}
