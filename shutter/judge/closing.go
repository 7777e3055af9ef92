package judge

import (
	"fmt"

	"earshot/shutter"
)

// earlyStops is how much shorter than expected a firing closes early, in stops.
const earlyStops = 1

// closesEarly finds firings at least 1 stop shorter than the median of the others at the same
// speed. Where most firings of the speed are that much shorter than the mark, they are
// compared with the mark instead, unless it is only assumed.
func (j *judging) closesEarly() {
	for _, t := range j.trials {
		mostly := !t.speed.Assumed && t.mostShort()
		var early []int
		for k, i := range t.counted {
			if mostly && t.x[k] <= -earlyStops || t.shortOfFellows(k) {
				early = append(early, i)
			}
		}
		if len(early) == 0 {
			continue
		}
		why := firingsText(early) + " closed 1 stop or more before the others at this speed"
		if mostly {
			why = fmt.Sprintf("%s closed 1 stop or more before the time of the mark %s", firingsText(early), t.speed.Mark.Label)
		}
		j.add(t, ClosesEarly, early, why)
	}
}

// mostShort tells whether more than half of the firings are short of the mark.
func (t *trial) mostShort() bool {
	short := 0
	for _, x := range t.x {
		if x <= -earlyStops {
			short++
		}
	}
	return 2*short > len(t.x)
}

// shortOfFellows tells whether firing k is short of the median of all others.
func (t *trial) shortOfFellows(k int) bool {
	if len(t.x) < 2 {
		return false
	}
	fellows := make([]float64, 0, len(t.x)-1)
	fellows = append(append(fellows, t.x[:k]...), t.x[k+1:]...)
	return t.x[k] <= shutter.Median(fellows)-earlyStops
}

// hangsOpen finds openings that nothing closed although the clip goes on, and those that
// closed far too late. If the speed of such a firing is not known or in doubt, and it hung at
// each possible speed, it is a symptom of the shutter as a whole. If the settings told do not
// fit what was heard, no firing is judged, not even one that hung: it may be of another lens,
// or no firing at all.
func (j *judging) hangsOpen() {
	placed := map[int]bool{}
	for _, t := range j.trials {
		for _, i := range t.hung {
			placed[i] = true
		}
		if len(t.hung) > 0 {
			j.add(t, HangsOpen, t.hung, firingsText(t.hung)+" opened and stayed open")
		}
	}
	var loose []int
	for i, f := range j.check.Firings {
		switch {
		case f.Unfit != "" || placed[i] || !j.hangsAnywhere(f.Firing):
		case len(j.laying.Misfits) > 0:
			j.unjudgedHung = append(j.unjudgedHung, i)
		default:
			loose = append(loose, i)
		}
	}
	if len(loose) > 0 {
		why := firingsText(loose) + " opened and stayed open, at a speed that is not sure"
		j.check.Symptoms = append(j.check.Symptoms, j.symptom(HangsOpen, loose, why))
	}
}

// hangsAnywhere tells whether a firing stayed open even if it was made at the slowest
// of the speeds.
func (j *judging) hangsAnywhere(f shutter.Firing) bool {
	return !f.Closed || len(j.trials) > 0 && f.Hangs(j.trials[0].speed.Mark)
}
