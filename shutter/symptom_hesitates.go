package shutter

import (
	"fmt"
	"slices"
)

// hesitates finds firings in which the buzz stops or falters and goes on before the
// closing, which is later for it.
func (j *judging) hesitates() {
	for _, t := range j.trials {
		if with := j.faltering(pick(t.counted, j.unexplained(t))); len(with) > 0 {
			j.add(t, Hesitates, with, j.falterText(with))
		}
	}
}

// falterText says where the buzz of the firings falters, of which there is one at
// least that does; of several, where it does for longest.
func (j *judging) falterText(indices []int) string {
	var longest Falter
	for _, i := range indices {
		for _, f := range j.check.Firings[i].Buzz.Falters {
			if f.Length > longest.Length {
				longest = f
			}
		}
	}
	if len(indices) > 1 {
		return fmt.Sprintf("the buzz falters and goes on in %s, for up to %s", firingsText(indices), timeText(longest.Length))
	}
	return fmt.Sprintf("the buzz of %s falters %s after the opening for %s, and goes on", firingsText(indices), timeText(longest.Start), timeText(longest.Length))
}

// faltering returns those of the firings, all of one speed, whose buzz falters and which
// last longer for it: while the escapement stands still, no time runs off it. So each is
// held against the median of those that do not falter, where there are any, and is longer
// by half of what it stood still for at least. Of one that lasts no longer, something else
// was heard, as speech that pauses, and the escapement ran on.
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
	without := median(others)
	return slices.DeleteFunc(with, func(i int) bool {
		f := &j.check.Firings[i].Firing
		return f.Duration()-without < still(&f.Buzz)/2
	})
}

// still is how long the escapement stood still in all, s.
func still(b *Buzz) float64 {
	sum := 0.0
	for _, f := range b.Falters {
		sum += f.Length
	}
	return sum
}
