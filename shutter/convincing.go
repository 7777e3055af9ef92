package shutter

import "math"

// What a set of firings must have to be one, besides being alike.
const (
	few           = 2    // firings that have hardly another to be like,
	needed        = 0.5  // and evidence that each must have of its own
	lacking       = 1.5  // evidence that each may lack where the others are like it
	evenly        = 0.02 // two intervals this much alike, as a part, are of one clock
	enoughForBeat = 5    // firings by which a beat can be told
)

// worth is how much a set looks like the firings of a shutter and not like what
// some other thing does again and again, as a logarithm of odds. That its sounds
// are alike speaks for neither.
func (v *voice) worth(set []pair) float64 {
	sum := dialOdds(set)
	for i := range set {
		_, released := v.release(set[i].open)
		sum += set[i].evidence - v.alike*(1-set[i].heard()) + released
	}
	return sum
}

// convincing tells whether a set of the given worth is the firings of a shutter at
// all: sounds that have nothing of a firing but that they come in like pairs are a
// clock's, or somebody's at a keyboard.
func (v *voice) convincing(set []pair, worth float64) bool {
	n := float64(len(set))
	if len(set) <= few {
		return worth > needed*n
	}
	return worth > -lacking*n && !v.r.beats(set)
}

// beats tells whether the sounds of a set come in time: firings that all last as
// long and follow each other as evenly as nobody winds and fires a shutter.
func (r *room) beats(set []pair) bool {
	if len(set) < enoughForBeat {
		return false
	}
	even := 0
	for i := 2; i < len(set); i++ {
		a, b, c := &set[i-2], &set[i-1], &set[i]
		before := r.sounds[b.open].at - r.sounds[a.open].at
		after := r.sounds[c.open].at - r.sounds[b.open].at
		if math.Abs(after/before-1) < evenly && math.Abs(c.span/b.span-1) < evenly {
			even++
		}
	}
	return 2*even > len(set)-2
}
