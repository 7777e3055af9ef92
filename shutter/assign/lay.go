package assign

import (
	"fmt"
	"slices"

	"earshot/shutter"
)

// Run is the unbroken run of firings made at one setting of the dial.
type Run struct {
	Mark    shutter.Mark
	Assumed bool  // taken from the durations, not told
	Firings []int // indices into the firings, in time order
}

// Doubt says why a firing is not counted at a speed though it was heard well.
type Doubt struct {
	Firing int
	Reason string
}

// Laying is how the firings were laid against the dial settings. Every firing is
// in one run or has a doubt, or both (placed, but in doubt).
type Laying struct {
	Runs     []Run
	Doubts   []Doubt
	Misfits  []Misfit       // settings told that do not fit what was heard
	Unheard  []shutter.Mark // marks told and without a firing
	Warnings []string       // missed firings, counts that disagree, settings without a firing
}

// seriesWarnings names each mark that is on neither kind of dial: it was told wrongly, or the
// dial is unusual.
func seriesWarnings(steps []shutter.Step) []string {
	var warnings []string
	seen := map[string]bool{}
	for _, s := range steps {
		label := s.Mark.Label
		_, binary := shutter.Binary().Find(label)
		_, older := shutter.Older().Find(label)
		if !binary && !older && !seen[label] {
			warnings = append(warnings, fmt.Sprintf("%s: a mark of neither the modern nor the older series, taken as written, %s", label, shutter.TimeText(s.Mark.Nominal)))
		}
		seen[label] = true
	}
	return warnings
}

// Lay lays firings, in time order over one or more clips, against the dial
// settings told in the order fired. Each setting is one unbroken run; settings may
// have no firing, and firings may belong to no setting.
//
// One model of a person at a table explains the firings (see layModel). It knows the
// durations, and that a shutter is off by about as much at neighbouring speeds; the counts
// told, or else that they are likely equal; and the pauses, which tend to be
// longer where the dial is turned. The chance of every way of laying them is worked out, and
// each firing gets the setting it most likely belongs to. If its mark is in doubt, it is
// placed and has a Doubt, unless every setting has just as many firings as were told. If it
// most likely belongs to none, it has a Doubt and no place. A firing that never closed, or is
// unfit for figures, takes its place like any other. If one setting was told, all firings are
// its own.
//
// Where the settings told do not fit what was heard (see misfitOf), no firing has a
// place, and the laying has a Misfit. With no setting told, all are in doubt.
func Lay(firings []shutter.Firing, steps []shutter.Step) Laying {
	switch {
	case len(steps) == 0:
		return Laying{Doubts: doubtAll(firings, "no speed was told")}
	case len(firings) == 0:
		return Laying{Unheard: without(steps, nil), Warnings: warnings(steps, make([]int, len(steps)))}
	}
	model := newLayModel(firings, steps)
	w, p := posteriorOf(model, habits(steps, len(firings)))
	places := make([]int, len(firings))
	var doubts []Doubt
	if len(steps) > 1 {
		places = w.places()
		doubts = w.doubts(places, steps)
	}
	runs, heard := runsOf(places, steps)
	if tally(steps, heard, places) {
		doubts = nil
	}
	l := Laying{Runs: runs, Doubts: doubts, Unheard: without(steps, ran(runs)), Warnings: warnings(steps, heard)}
	l.Warnings = slices.Concat(l.Warnings, moreThanTold(places), l.neighbourFits(firings))
	if m, ok := l.misfitOf(firings, steps, w.log, logOther(firings, model, p)); ok {
		return Laying{Doubts: doubtAll(firings, misfitReason), Misfits: []Misfit{m}, Warnings: seriesWarnings(steps)}
	}
	return l
}

// without returns the marks of the steps that none of the others has, each once.
func without(steps, others []shutter.Step) []shutter.Mark {
	var marks []shutter.Mark
	for _, s := range steps {
		has := slices.ContainsFunc(others, func(o shutter.Step) bool { return o.Mark == s.Mark })
		if !has && !slices.Contains(marks, s.Mark) {
			marks = append(marks, s.Mark)
		}
	}
	return marks
}

func doubtAll(firings []shutter.Firing, reason string) []Doubt {
	doubts := make([]Doubt, len(firings))
	for i := range firings {
		doubts[i] = Doubt{i, reason}
	}
	return doubts
}

// tally tells whether there are as many firings at each setting as were told, and no
// others. Then the person most likely counted right. An odd firing is a fault of the
// shutter, to be named, and no reason to leave the firing out.
func tally(steps []shutter.Step, heard, places []int) bool {
	for s, step := range steps {
		if step.Count == 0 || step.Count != heard[s] {
			return false
		}
	}
	return !slices.Contains(places, nowhere)
}

// runsOf gathers the firings placed at each step and counts them; steps without
// a firing make no run.
func runsOf(places []int, steps []shutter.Step) (runs []Run, heard []int) {
	heard = make([]int, len(steps))
	for s, step := range steps {
		run := Run{Mark: step.Mark}
		for i, p := range places {
			if p == s {
				run.Firings = append(run.Firings, i)
			}
		}
		if heard[s] = len(run.Firings); heard[s] > 0 {
			runs = append(runs, run)
		}
	}
	return runs, heard
}

// moreThanTold warns of firings behind all those that have a place, if there are
// several: settings were fired that nobody told.
func moreThanTold(places []int) []string {
	behind := 0
	for _, p := range slices.Backward(places) {
		if p != nowhere {
			break
		}
		behind++
	}
	if behind < 2 {
		return nil
	}
	return []string{fmt.Sprintf("the last %s fit none of the settings told: tell every setting that was fired", shutter.FiringsCount(behind))}
}

// ran returns the steps that the runs are of.
func ran(runs []Run) []shutter.Step {
	steps := make([]shutter.Step, len(runs))
	for i, r := range runs {
		steps[i] = shutter.Step{Mark: r.Mark, Count: len(r.Firings)}
	}
	return steps
}

// warnings says which marks are unknown, and where what was heard is not what was told.
func warnings(steps []shutter.Step, heard []int) []string {
	warnings := seriesWarnings(steps)
	for s, step := range steps {
		switch {
		case step.Count > 0 && heard[s] == 0:
			warnings = append(warnings, fmt.Sprintf("%s: %s told, none heard", step.Mark.Label, shutter.FiringsCount(step.Count)))
		case step.Count > 0 && heard[s] != step.Count:
			warnings = append(warnings, fmt.Sprintf("%s: %s told, %d heard", step.Mark.Label, shutter.FiringsCount(step.Count), heard[s]))
		case heard[s] == 0:
			warnings = append(warnings, step.Mark.Label+": told, but no firing heard at it")
		}
	}
	return warnings
}
