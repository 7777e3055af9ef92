package shutter

import "math"

// What a set of firings must have to be one, besides being alike.
const (
	few           = 2    // firings that have hardly another to be like,
	needed        = 0.5  // and evidence that each must have of its own
	lacking       = 1.5  // evidence that each may lack where the others are like it,
	lackingSteps  = 5    // and where they show the steps of a dial
	repeated      = 0.15 // stops: two successive firings at one setting agree this well
	stepped       = 0.5  // stops: another setting is at least so far off
	mostly        = 0.7  // part of the firings that must agree with a neighbour to show steps
	evenly        = 0.02 // two intervals this much alike, as a part, are of one clock
	enoughForBeat = 5    // firings by which a beat can be told
)

// convincing tells whether the firings of a set are such by themselves, not only
// by being like each other: sounds that have nothing of a firing but that they
// come in like pairs are a clock's, or somebody's at a keyboard.
func (v *voice) convincing(set []pair) bool {
	if v.r.beats(set) {
		return false
	}
	sum := 0.0
	for i := range set {
		sum += set[i].evidence - v.alike*(1-set[i].heard())
	}
	if len(set) <= few {
		return sum > needed*float64(len(set))
	}
	allowed := lacking
	if stepwise(set) {
		allowed = lackingSteps
	}
	return sum > -allowed*float64(len(set))
}

// stepwise tells whether the spans show a dial: most repeat those next to them,
// and there are at least two that do which are a step apart. Neither the parts of
// one sound nor a clock nor chance does that.
func stepwise(set []pair) bool {
	agree := 0
	var steps []float64
	for i := range set {
		x := math.Log2(set[i].span)
		if i > 0 && math.Abs(x-math.Log2(set[i-1].span)) < repeated {
			agree++
			steps = append(steps, x)
		} else if i+1 < len(set) && math.Abs(x-math.Log2(set[i+1].span)) < repeated {
			agree++
		}
	}
	if len(steps) == 0 || float64(agree) < mostly*float64(len(set)) {
		return false
	}
	return spread(steps) > stepped
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
