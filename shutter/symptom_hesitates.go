package shutter

import "fmt"

// hesitates finds firings in which the buzz stops or falters and goes on before the
// closing.
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

// faltering returns those of the firings whose buzz falters.
func (j *judging) faltering(indices []int) []int {
	var with []int
	for _, i := range indices {
		if len(j.check.Firings[i].Buzz.Falters) > 0 {
			with = append(with, i)
		}
	}
	return with
}
