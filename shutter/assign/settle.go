package assign

import (
	"slices"

	"earshot/shutter"
)

// Settle gives firings the marks that a person settled. settled[i] is the mark of firing i;
// where it is the zero Mark, the firing stays as it was laid. told are the settings that were
// told, if any. A settled mark replaces the one laid. Where they differ, the settings told
// were not fired in order, so the firings are compared with them again, mark by mark.
func (l Laying) Settle(firings []shutter.Firing, settled []shutter.Mark, told []shutter.Step) Laying {
	settled = shutter.OfOneSeries(settled)
	is := func(i int) bool { return settled[i] != (shutter.Mark{}) }
	l.Doubts = slices.DeleteFunc(slices.Clone(l.Doubts), func(d Doubt) bool { return is(d.Firing) })
	if l.has(settled) {
		return l
	}
	out := Laying{Doubts: l.Doubts}
	for _, run := range l.Runs {
		out.place(run.Mark, run.Assumed, slices.DeleteFunc(slices.Clone(run.Firings), is))
	}
	rest := len(out.Doubts) > 0 || len(out.Runs) > 0
	for i, m := range settled {
		if is(i) {
			out.place(m, false, []int{i})
		}
	}
	slices.SortFunc(out.Runs, func(a, b Run) int { return a.Firings[0] - b.Firings[0] })
	if rest {
		out.Misfits = l.Misfits
	}
	out.holdAgainst(byMark(told), l.Unheard)
	out.Warnings = append(out.Warnings, out.neighbourFits(firings)...)
	if rest && len(told) == 0 {
		out.Warnings = append(out.Warnings, l.Warnings...) // of how the rest was laid
	}
	return out
}

// has tells whether the laying has every settled firing at its mark.
func (l Laying) has(settled []shutter.Mark) bool {
	at := make([]shutter.Mark, len(settled))
	for _, run := range l.Runs {
		for _, i := range run.Firings {
			if !run.Assumed {
				at[i] = run.Mark
			}
		}
	}
	for i, m := range settled {
		if m != (shutter.Mark{}) && m != at[i] {
			return false
		}
	}
	return true
}

// place adds firings to the run of a mark, a new one where there is none.
func (l *Laying) place(m shutter.Mark, assumed bool, firings []int) {
	if len(firings) == 0 {
		return
	}
	k := slices.IndexFunc(l.Runs, func(r Run) bool { return r.Mark == m && r.Assumed == assumed })
	if k < 0 {
		k, l.Runs = len(l.Runs), append(l.Runs, Run{Mark: m, Assumed: assumed})
	}
	l.Runs[k].Firings = append(l.Runs[k].Firings, firings...)
	slices.Sort(l.Runs[k].Firings)
}

// holdAgainst says at which marks the number of firings is not the one told, and which marks
// that were told, or unheard before, have none. A mark has at most one run and one step.
func (l *Laying) holdAgainst(told []shutter.Step, unheard []shutter.Mark) {
	heard := make([]int, len(told))
	var laid, untold []shutter.Step
	for _, run := range l.Runs {
		if run.Assumed {
			continue
		}
		step := shutter.Step{Mark: run.Mark, Count: len(run.Firings)}
		laid = append(laid, step)
		if k := slices.IndexFunc(told, func(s shutter.Step) bool { return s.Mark == run.Mark }); k < 0 {
			untold = append(untold, step)
		} else {
			heard[k] = step.Count
		}
	}
	wanted := slices.Clone(told)
	for _, m := range unheard {
		wanted = append(wanted, shutter.Step{Mark: m})
	}
	l.Unheard = without(wanted, laid)
	l.Warnings = slices.Concat(warnings(told, heard), seriesWarnings(untold))
}

// byMark gathers the steps of each mark into one, its count 0 where one was not told.
func byMark(steps []shutter.Step) []shutter.Step {
	var all []shutter.Step
	for _, s := range steps {
		k := slices.IndexFunc(all, func(a shutter.Step) bool { return a.Mark == s.Mark })
		switch {
		case k < 0:
			all = append(all, s)
		case s.Count == 0 || all[k].Count == 0:
			all[k].Count = 0
		default:
			all[k].Count += s.Count
		}
	}
	return all
}
