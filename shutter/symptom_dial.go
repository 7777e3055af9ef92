package shutter

import (
	"fmt"
	"math"
	"slices"
)

// unevenStops is how far off the line of the others a speed is an uneven step, and
// how near to each other speeds are off alike, in stops.
const unevenStops = 1.0 / 3

// kinds are the speeds that the escapement holds back and those that it does not, in the median, stops.
type kinds struct {
	with, without      []point
	slow, other, apart float64 // of those with buzz, of those without, and by how much they differ
	alike              []point // those with buzz near their median
}

func kindsOf(all []point) (k kinds) {
	for _, p := range all {
		if p.held {
			k.with = append(k.with, p)
		} else {
			k.without = append(k.without, p)
		}
	}
	k.slow, k.other = median(deviations(k.with)), median(deviations(k.without))
	k.apart = k.slow - k.other
	for _, p := range k.with {
		if math.Abs(p.x-k.slow) <= unevenStops {
			k.alike = append(k.alike, p)
		}
	}
	return k
}

// differ tells whether the speeds with buzz are off alike, by more from those without
// than is known of them and than speeds may lie off a line, and a tilted line does not
// explain it better.
func (k kinds) differ() bool {
	if len(k.with) < 2 || len(k.without) == 0 || len(k.alike) < 2 || 2*len(k.alike) <= len(k.with) {
		return false
	}
	u95 := math.Hypot(median(uncertainties(k.with)), median(uncertainties(k.without)))
	return math.Abs(k.apart) > max(u95, unevenStops) && k.left() < k.leftByLine()
}

// left is how far the speeds lie off the medians of their kinds in all, stops.
func (k kinds) left() (sum float64) {
	for _, p := range k.with {
		sum += math.Abs(p.x - k.slow)
	}
	for _, p := range k.without {
		sum += math.Abs(p.x - k.other)
	}
	return sum
}

// leftByLine is how far they lie off one line through both.
func (k kinds) leftByLine() (sum float64) {
	all := slices.Concat(k.with, k.without)
	for _, p := range all {
		sum += math.Abs(p.x - lineAt(all, p.at))
	}
	return sum
}

// slowEscapement finds that the speeds with buzz are slow alike, beyond the good limit,
// while those without are not. It returns by how much the two differ where they do,
// one way or the other; of one speed without buzz it can't be told from that being off.
func (j *judging) slowEscapement(all []point) (step float64) {
	k := kindsOf(all)
	slow := k.slow > j.policy.Good && math.Abs(k.other) <= j.policy.Good
	if !k.differ() || !slow && len(k.without) < 2 {
		return 0
	}
	if slow {
		var firings []int
		for _, p := range k.alike {
			firings = append(firings, p.firings...)
		}
		why := fmt.Sprintf("the speeds that the slow-speed escapement holds back are %.1f stop slower than the mark, alike, and those without it are not", k.slow)
		j.check.Symptoms = append(j.check.Symptoms, j.symptom(SlowEscapement, firings, why))
	}
	return k.apart
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
