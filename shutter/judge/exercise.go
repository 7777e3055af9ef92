package judge

import (
	"fmt"
	"math"
	"slices"

	"earshot/shutter"
	"earshot/shutter/internal/pick"
)

// The limits of the trend of a shutter that frees up. A shutter fired exerciseFirings times
// at one speed has been exercised; later firings are not tested.
const (
	exerciseP       = 0.01    // exact, one-sided
	exerciseDrop    = 1.0 / 6 // median drop from first to last, stops
	exerciseFirings = 30

	exerciseTie = 1e-6 // stops within which two firings are alike; far below any onset's
)

// fall is how the deviations of one or several speeds run from firing to firing.
type fall struct {
	trend
	drops []float64 // from first to last, a series each, stops
}

// proved tells whether it is a shutter freeing up.
func (f fall) proved() bool { return f.falling() <= exerciseP && f.suspected() }

// suspected tells whether it falls by as much as a shutter that frees up. That may be by
// chance.
func (f fall) suspected() bool { return f.s < 0 && shutter.Median(f.drops) >= exerciseDrop }

// needsExercise finds a shutter that frees up as it is fired: the deviations fall
// from firing to firing. Kendall's S is summed over all speeds, so that a few
// firings at each tell as much as many at one. It is also summed over those with buzz, which
// share the escapement, and taken of each speed by itself. One of these sums is enough. It is
// a symptom of the speeds that fall.
func (j *judging) needsExercise() {
	none := fall{trend: newTrend(nil)}
	all, buzzing := none, none
	own := make([]fall, len(j.trials))
	for k, t := range j.trials {
		own[k] = j.fallOf(t)
		t.freeing = own[k].suspected()
		all = all.and(own[k])
		if t.buzz {
			buzzing = buzzing.and(own[k])
		}
	}
	for k, t := range j.trials {
		together := all.proved() || t.buzz && buzzing.proved()
		if own[k].proved() || own[k].s < 0 && together {
			why := fmt.Sprintf("it frees up as it is fired: its firings grow shorter one after another, by %.2f stop from the first to the last", shutter.Median(own[k].drops))
			j.add(t, NeedsExercise, pick.At(t.counted, j.unexplained(t)), why)
		}
	}
}

// and returns both taken together.
func (f fall) and(o fall) fall {
	return fall{trend: f.plus(o.trend), drops: slices.Concat(f.drops, o.drops)}
}

// fallOf returns the trend of the firings of one speed. Firings of different clips are not
// compared, since it is not known which clip came first.
func (j *judging) fallOf(t *trial) fall {
	f := fall{trend: newTrend(nil)}
	for _, x := range j.series(t) {
		if len(x) > 1 {
			f.trend = f.plus(newTrend(x))
			f.drops = append(f.drops, x[0]-x[len(x)-1])
		}
	}
	return f
}

// series returns the unexplained deviations of a speed in time order, one list
// for each clip, rounded so that what differs by arithmetic alone is tied.
func (j *judging) series(t *trial) [][]float64 {
	var lists [][]float64
	last := -1
	for _, k := range j.unexplained(t) {
		clip := j.check.Firings[t.counted[k]].Clip
		if len(lists) == 0 || clip != last {
			lists = append(lists, nil)
			last = clip
		}
		if list := &lists[len(lists)-1]; len(*list) < exerciseFirings {
			*list = append(*list, math.Round(t.x[k]/exerciseTie)*exerciseTie)
		}
	}
	return lists
}
