package shutter

import "fmt"

// erratic finds speeds whose firings, those explained otherwise left aside, spread
// beyond the service limit for their number.
func (j *judging) erratic() {
	for _, t := range j.trials {
		places := j.unexplained(t)
		x := pick(t.x, places)
		limit := j.spreadLimits(len(x)).service
		if spread(x) <= limit {
			continue
		}
		why := fmt.Sprintf("its %d firings differ by %.2f stop, more than the %.2f that many may", len(x), spread(x), limit)
		if with := j.faltering(pick(t.counted, places)); len(with) > 0 {
			why += "; " + j.falterText(with)
		}
		j.add(t, Erratic, pick(t.counted, places), why)
	}
}
