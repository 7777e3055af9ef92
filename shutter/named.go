package shutter

import "slices"

// LayNamed lays firings where clips carry their speed in their names: marks[c] is
// the mark of clip c, the zero Mark where its name carries none. All firings of a
// named clip are at its mark; those of the others are laid by LayNearest.
func LayNamed(firings []Firing, marks []Mark) Laying {
	settled := OfOneSeries(marks)
	var laying Laying
	var unnamed []Firing
	var at []int // index of each unnamed firing
	last := -1   // clip of the last run
	for i, f := range firings {
		switch {
		case f.Clip >= len(settled) || settled[f.Clip] == Mark{}:
			unnamed, at = append(unnamed, f), append(at, i)
		case f.Clip != last || len(laying.Runs) == 0:
			laying.Runs = append(laying.Runs, Run{Mark: settled[f.Clip], Firings: []int{i}})
			last = f.Clip
		default:
			run := &laying.Runs[len(laying.Runs)-1]
			run.Firings = append(run.Firings, i)
		}
	}
	laying.addAt(LayNearest(unnamed), at)
	slices.SortFunc(laying.Runs, func(a, b Run) int { return a.Firings[0] - b.Firings[0] })
	return laying
}

// addAt adds a laying of some firings, whose k-th is the firing at[k] here.
func (l *Laying) addAt(some Laying, at []int) {
	for _, run := range some.Runs {
		for k, i := range run.Firings {
			run.Firings[k] = at[i]
		}
		l.Runs = append(l.Runs, run)
	}
	for _, d := range some.Doubts {
		l.Doubts = append(l.Doubts, Doubt{at[d.Firing], d.Reason})
	}
	l.Warnings = append(l.Warnings, some.Warnings...)
}
