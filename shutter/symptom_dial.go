package shutter

import (
	"fmt"
	"math"
)

// unevenStops is how far off the line of the others a speed is an uneven step, and
// how near to each other speeds are off alike, in stops.
const unevenStops = 1.0 / 3

// slowEscapement finds that the speeds with buzz are slow alike, beyond the good limit,
// while those without are not, and that the two differ by more than they are known to.
// It returns by how much they differ, in stops, 0 where they do not.
func (j *judging) slowEscapement(all []point) float64 {
	var with, without []point
	for _, p := range all {
		if p.t.buzz {
			with = append(with, p)
		} else {
			without = append(without, p)
		}
	}
	if len(with) < 2 || len(without) == 0 {
		return 0
	}
	slow, other := median(deviations(with)), median(deviations(without))
	u95 := math.Hypot(median(uncertainties(with)), median(uncertainties(without)))
	if slow <= j.policy.Good || math.Abs(other) > j.policy.Good || slow-other <= max(u95, unevenStops) {
		return 0
	}
	var firings []int
	alike := 0
	for _, p := range with {
		if math.Abs(p.x-slow) <= unevenStops {
			alike++
			firings = append(firings, p.firings...)
		}
	}
	if alike < 2 || 2*alike <= len(with) {
		return 0
	}
	why := fmt.Sprintf("the speeds that the slow-speed escapement holds back are %.1f stop slower than the mark, alike, and those without it are not", slow)
	j.check.Symptoms = append(j.check.Symptoms, j.symptom(SlowEscapement, firings, why))
	return slow - other
}

// unevenSteps finds speeds off the line of the others.
func (j *judging) unevenSteps(all []point) {
	for _, p := range all {
		r := p.t.speed.Residual
		explained := len(j.check.Firings[p.firings[0]].Symptoms) > 0
		if !r.Known || explained || math.Abs(r.Stops) <= max(unevenStops, r.U95) {
			continue
		}
		side := "slower"
		if r.Stops < 0 {
			side = "faster"
		}
		why := fmt.Sprintf("it is %.1f stop (%s) %s than the line of the other speeds", math.Abs(r.Stops), timeText(math.Abs(r.Time)), side)
		j.add(p.t, UnevenSteps, p.firings, why)
	}
}
