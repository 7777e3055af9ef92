package shutter

import "fmt"

// earlyStops is how much shorter than expected a firing closes early, in stops.
const earlyStops = 1

// closesEarly finds firings at least 1 stop shorter than the median of their
// fellows at the same speed or, where most of the speed's firings are that much
// shorter than the mark, than the mark itself. An assumed mark proves nothing.
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
	return t.x[k] <= median(fellows)-earlyStops
}
