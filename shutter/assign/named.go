package assign

import (
	"fmt"
	"slices"

	"earshot/shutter"
	"earshot/shutter/internal/pick"
)

// LayNamed lays firings of clips whose names carry speeds. marks[c] is the mark of clip c,
// the zero Mark where its name carries none. The firings of a named clip are laid as by Lay,
// with its mark as the only setting told. Those of the others are laid by LayNearest.
func LayNamed(firings []shutter.Firing, marks []shutter.Mark) Laying {
	settled := shutter.OfOneSeries(marks)
	of := make([][]int, len(settled)) // the firings of each named clip
	var unnamed []int
	for i, f := range firings {
		if f.Clip < len(settled) && settled[f.Clip] != (shutter.Mark{}) {
			of[f.Clip] = append(of[f.Clip], i)
		} else {
			unnamed = append(unnamed, i)
		}
	}
	var laying Laying
	var named, heard []shutter.Step
	for c, mark := range settled {
		if mark == (shutter.Mark{}) {
			continue
		}
		step := shutter.Step{Mark: mark}
		named = append(named, step)
		if len(of[c]) > 0 {
			heard = append(heard, step)
			laying.addAt(layClip(pick.At(firings, of[c]), step, len(marks) > 1), of[c])
		}
	}
	laying.Warnings = append(seriesWarnings(named), laying.neighbourFits(firings)...)
	laying.addAt(LayNearest(pick.At(firings, unnamed)), unnamed)
	slices.SortFunc(laying.Runs, func(a, b Run) int { return a.Firings[0] - b.Firings[0] })
	laying.Unheard = without(named, heard)
	return laying
}

// layClip lays the firings of one clip of several, or the only one, at the setting
// it is named after.
func layClip(firings []shutter.Firing, step shutter.Step, several bool) Laying {
	l := Lay(firings, []shutter.Step{step})
	l.Warnings = nil // the marks of all clips are warned of together
	for k := range l.Misfits {
		if several {
			l.Misfits[k].Why = fmt.Sprintf("clip %d: %s", firings[0].Clip+1, l.Misfits[k].Why)
		}
	}
	return l
}

// addAt adds a laying of some firings, whose k-th is the firing at[k] here.
func (l *Laying) addAt(some Laying, at []int) {
	for _, run := range some.Runs {
		run.Firings = pick.At(at, run.Firings)
		l.Runs = append(l.Runs, run)
	}
	for _, d := range some.Doubts {
		l.Doubts = append(l.Doubts, Doubt{at[d.Firing], d.Reason})
	}
	l.Misfits = append(l.Misfits, some.Misfits...)
	l.Warnings = append(l.Warnings, some.Warnings...)
}
