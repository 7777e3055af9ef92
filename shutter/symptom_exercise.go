package shutter

import "fmt"

// The limits of the trend as a shutter frees up. A shutter fired exerciseFirings
// times at one speed has been exercised; what comes after is not weighed.
const (
	exerciseP       = 0.01    // exact, one-sided
	exerciseDrop    = 1.0 / 6 // median drop from first to last, stops
	exerciseFirings = 30
)

// needsExercise finds a shutter that frees up as it is fired: the deviations fall
// from firing to firing. Kendall's S is summed over the speeds, so that a few
// firings at each tell as much as many at one. It is a symptom of each speed that
// falls.
func (j *judging) needsExercise() {
	sum := newTrend(nil)
	var drops []float64
	falls := make(map[*trial]float64)
	for _, t := range j.trials {
		own, fell := j.exercise(t)
		if own.s < 0 {
			falls[t] = median(fell)
			t.freeing = falls[t] >= exerciseDrop
		}
		sum = sum.plus(own)
		drops = append(drops, fell...)
	}
	if sum.falling() > exerciseP || median(drops) < exerciseDrop {
		return
	}
	for _, t := range j.trials {
		if drop, ok := falls[t]; ok {
			why := fmt.Sprintf("it frees up as it is fired: its firings grow shorter one after another, by %.2f stop from the first to the last", drop)
			j.add(t, NeedsExercise, pick(t.counted, j.unexplained(t)), why)
		}
	}
}

// exercise returns the trend of one speed's firings and its drops from first to
// last in stops. Firings of different clips are not compared: which clip came
// first is not known.
func (j *judging) exercise(t *trial) (sum trend, drops []float64) {
	sum = newTrend(nil)
	for _, x := range j.series(t) {
		if len(x) > 1 {
			sum = sum.plus(newTrend(x))
			drops = append(drops, x[0]-x[len(x)-1])
		}
	}
	return sum, drops
}

// series returns the unexplained deviations of a speed in time order, one list
// for each clip.
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
			*list = append(*list, t.x[k])
		}
	}
	return lists
}
