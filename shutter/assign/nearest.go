package assign

import (
	"math"
	"slices"

	"earshot/shutter"
)

const (
	// likeWithin stops of their run's median firings are taken to be at one
	// setting: half the usual step between two marks.
	likeWithin = 0.5
	// offTheDial stops beyond the slowest or fastest mark a duration has no mark.
	offTheDial = 1.0
	// olderMargin is the squared misfit in stops², summed over the runs, by which
	// the older series must fit better to be taken: odds of 20 to 1, 2σ²·ln 20, where
	// speeds are off their marks by σ = 0.2 stop (common practice, no source).
	olderMargin = 0.24
)

// LayNearest lays firings for which no speed was told. Each run of similar firings takes the
// nearest mark of one series, the binary one unless the older fits clearly better, and is
// Assumed. A single firing may differ from the run around it. It stays in the run if two or
// more firings of the run are on one side of it, since nobody turns the dial for one firing
// and back. A firing without a duration belongs to the run around it. If there is none, or if
// it is far off the dial, it has a Doubt and no place.
func LayNearest(firings []shutter.Firing) Laying {
	groups := likeGroups(firings)
	series, older := seriesFor(groups)
	laying := Laying{}
	if older {
		laying.Warnings = append(laying.Warnings, "the marks were taken from the older series (1, 1/2, 1/5, 1/10, 1/25 ...), which fits clearly better: tell the speeds if the dial has others")
	}
	runOf := make([]int, len(groups)) // of each group; nowhere if off the dial
	for g, group := range groups {
		mark, off := series.Nearest(group.median())
		if math.Abs(off) > offTheDial {
			runOf[g] = nowhere
			continue
		}
		if last := len(laying.Runs) - 1; last < 0 || laying.Runs[last].Mark != mark || runOf[g-1] == nowhere {
			laying.Runs = append(laying.Runs, Run{Mark: mark, Assumed: true})
		}
		runOf[g] = len(laying.Runs) - 1
	}
	for i, g := range groupOfEach(firings, groups) {
		switch {
		case g == nowhere:
			laying.Doubts = append(laying.Doubts, Doubt{i, "it has no duration that could tell its speed: tell the speeds"})
		case runOf[g] == nowhere:
			laying.Doubts = append(laying.Doubts, Doubt{i, "no mark is near its duration: tell the speeds"})
		default:
			run := &laying.Runs[runOf[g]]
			run.Firings = append(run.Firings, i)
		}
	}
	return laying
}

// likeGroup is a run of like firings, before it has a mark.
type likeGroup struct {
	firings   []int     // timed ones, in time order
	durations []float64 // log2 of s, of those that are alike
}

func (g likeGroup) median() float64 { return math.Exp2(shutter.Median(g.durations)) }

func (g likeGroup) holds(duration float64) bool {
	return len(g.durations) > 0 && math.Abs(duration-shutter.Median(g.durations)) <= likeWithin
}

// likeGroups gathers the timed firings into runs of like ones.
func likeGroups(firings []shutter.Firing) []likeGroup {
	var timed []int
	var x []float64
	for i, f := range firings {
		if d, ok := f.DeviationFrom(shutter.Mark{Nominal: 1}); ok {
			timed, x = append(timed, i), append(x, d)
		}
	}
	var groups []likeGroup
	var g likeGroup
	for k, i := range timed {
		if len(g.firings) > 0 && !g.holds(x[k]) && !g.goesOn(x[k+1:]) {
			groups = append(groups, g)
			g = likeGroup{}
		}
		g.firings = append(g.firings, i)
		if len(g.durations) == 0 || g.holds(x[k]) {
			g.durations = append(g.durations, x[k])
		}
	}
	if len(g.firings) > 0 {
		groups = append(groups, g)
	}
	return groups
}

// goesOn tells whether the run goes on after an odd firing. next holds the durations that
// follow it.
func (g likeGroup) goesOn(next []float64) bool {
	if len(next) == 0 || !g.holds(next[0]) {
		return false
	}
	return len(g.durations) > 1 || len(next) > 1 && g.holds(next[1])
}

// groupOfEach returns the group of each firing. One without a duration belongs to
// the group that has firings on both sides of it, or to the only one there is.
func groupOfEach(firings []shutter.Firing, groups []likeGroup) []int {
	of := slices.Repeat([]int{nowhere}, len(firings))
	for g, group := range groups {
		first, last := group.firings[0], group.firings[len(group.firings)-1]
		if len(groups) == 1 {
			first, last = 0, len(firings)-1
		}
		for i := first; i <= last; i++ {
			of[i] = g
		}
	}
	return of
}

// seriesFor returns the series that fits the groups, each counting once.
func seriesFor(groups []likeGroup) (s shutter.Series, older bool) {
	misfit := func(s shutter.Series) (sum float64) {
		for _, g := range groups {
			_, off := s.Nearest(g.median())
			sum += math.Min(off*off, offTheDial)
		}
		return sum
	}
	if misfit(shutter.Older())+olderMargin < misfit(shutter.Binary()) {
		return shutter.Older(), true
	}
	return shutter.Binary(), false
}
