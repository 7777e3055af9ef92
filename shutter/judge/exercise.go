package judge

import (
	"fmt"
	"math"
	"slices"

	"earshot/shutter"
	"earshot/shutter/internal/pick"
)

// The limits of the trend as a shutter frees up. A shutter fired exerciseFirings
// times at one speed has been exercised; what comes after is not weighed.
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

// suspected tells whether it falls by as much as a shutter that frees up, be it by
// chance or not.
func (f fall) suspected() bool { return f.s < 0 && shutter.Median(f.drops) >= exerciseDrop }

// needsExercise finds a shutter that frees up as it is fired: the deviations fall
// from firing to firing. Kendall's S is summed over the speeds, so that a few
// firings at each tell as much as many at one; over those with buzz too, which
// share the escapement; and a speed that proves it by itself is not talked down by
// the others. It is a symptom of the speeds that fall.
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

// fallOf returns how one speed's firings run. Those of different clips are not
// compared: which clip came first is not known.
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
