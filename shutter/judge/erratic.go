package judge

import (
	"fmt"
	"slices"

	"earshot/shutter"
	"earshot/shutter/internal/pick"
)

// erratic finds speeds whose firings, without those already explained, spread beyond the
// service limit for their number.
func (j *judging) erratic() {
	for _, t := range j.trials {
		places := j.unexplained(t)
		x := pick.At(t.x, places)
		limit := j.spreadLimits(len(x)).service
		if shutter.Range(x) <= limit {
			continue
		}
		why := fmt.Sprintf("its %d firings differ by %.2f stop, more than the %.2f that many may", len(x), shutter.Range(x), limit)
		if with := j.faltering(pick.At(t.counted, places)); len(with) > 0 {
			why += "; " + j.falterText(with)
		}
		j.add(t, Erratic, pick.At(t.counted, places), why)
	}
}

// hesitates finds firings in which the buzz stops or falters and then goes on, so that the
// closing is later.
func (j *judging) hesitates() {
	for _, t := range j.trials {
		if with := j.faltering(pick.At(t.counted, j.unexplained(t))); len(with) > 0 {
			j.add(t, Hesitates, with, j.falterText(with))
		}
	}
}

// falterText says where the buzz of the firings falters, and of several falters where the
// longest is. At least one of the firings falters.
func (j *judging) falterText(indices []int) string {
	var longest shutter.Falter
	for _, i := range indices {
		for _, f := range j.check.Firings[i].Buzz.Falters {
			if f.Length > longest.Length {
				longest = f
			}
		}
	}
	if len(indices) > 1 {
		return fmt.Sprintf("the buzz falters and goes on in %s, for up to %s", firingsText(indices), shutter.TimeText(longest.Length))
	}
	return fmt.Sprintf("the buzz of %s falters %s after the opening for %s, and goes on", firingsText(indices), shutter.TimeText(longest.Start), shutter.TimeText(longest.Length))
}

// faltering returns those of the firings, all of one speed, whose buzz falters and which last
// longer for it: while the escapement stands still, the shutter stays open. So each is compared
// with the median of those that do not falter, if there are any. It must be longer by at least
// half of the time that the buzz was still. If it is not, something else paused, such as
// speech, and the escapement ran on.
func (j *judging) faltering(indices []int) []int {
	var with []int
	var others []float64 // durations, s
	for _, i := range indices {
		if f := &j.check.Firings[i].Firing; len(f.Buzz.Falters) > 0 {
			with = append(with, i)
		} else {
			others = append(others, f.Duration())
		}
	}
	if len(others) == 0 {
		return with
	}
	without := shutter.Median(others)
	return slices.DeleteFunc(with, func(i int) bool {
		f := &j.check.Firings[i].Firing
		return f.Duration()-without < still(&f.Buzz)/2
	})
}

// still is how long the escapement stood still in all, s.
func still(b *shutter.Buzz) float64 {
	sum := 0.0
	for _, f := range b.Falters {
		sum += f.Length
	}
	return sum
}
