package main

import (
	"math"

	"earshot/dsp/synth"
	"earshot/shutter"
	"earshot/shutter/assign"
	"earshot/shutter/judge"
)

// laid counts how the firings found and right were laid against the settings told.
type laid struct{ firings, astray, doubtful int }

func (l *laid) add(m laid) {
	l.firings += m.firings
	l.astray += m.astray
	l.doubtful += m.doubtful
}

// speedMean is the mean deviation of one speed as it was judged, against two truths,
// in stops. Synthesis knows when metal moved and nothing of light, so the edge term
// of U95 is left out of both.
type speedMean struct {
	label string

	// drawn is the error against the deviation that the shutter was drawn with; each firing
	// differs from it by chance. u95 is the uncertainty stated for that: repeatability, onset
	// and clock.
	drawn, u95 float64

	// fired is the error against the mean of the firings that were made, by the recorder's
	// clock. Only the onset term of U95 covers that.
	fired, onset float64
}

// steps are the settings as told, with or without counts.
func steps(settings []synth.Setting, counts bool) []shutter.Step {
	var all []shutter.Step
	for _, s := range settings {
		step := shutter.Step{Mark: shutter.Mark{Label: s.Label, Nominal: s.Nominal}}
		if counts {
			step.Count = s.Count
		}
		all = append(all, step)
	}
	return all
}

// origin is the index of the true firing that each firing found is, or −1.
func (o *outcome) origin() []int {
	of := make([]int, len(o.found))
	for f := range of {
		of[f] = -1
	}
	for t, f := range o.of {
		if f >= 0 {
			of[f] = t
		}
	}
	return of
}

// lay lays the firings found against the settings told.
func (o *outcome) lay(counts bool) laid {
	laying := assign.Lay(o.found, steps(o.truth.Settings, counts))
	doubtful := map[int]bool{}
	for _, d := range laying.Doubts {
		doubtful[d.Firing] = true
	}
	label := map[int]string{}
	for _, r := range laying.Runs {
		for _, f := range r.Firings {
			label[f] = r.Mark.Label
		}
	}
	var l laid
	for f, t := range o.origin() {
		switch {
		case t < 0:
			continue
		case doubtful[f]:
			l.doubtful++
		case label[f] != o.truth.Firings[t].Label:
			l.astray++
		}
		l.firings++
	}
	return l
}

// means judges the firings found, with the settings and counts told. It returns the speeds that
// have a mean with its uncertainty and whose firings are all right.
func (o *outcome) means() []speedMean {
	policy := judge.Standard()
	policy.EdgeMS = 0
	check := judge.Judge(o.found, assign.Lay(o.found, steps(o.truth.Settings, true)), policy)
	origin := o.origin()
	var all []speedMean
	for _, s := range check.Speeds {
		if s.Summary.U95 == 0 || s.Summary.MeanHidden {
			continue
		}
		if m, ok := o.mean(s, check.Firings, origin); ok {
			all = append(all, m)
		}
	}
	return all
}

func (o *outcome) mean(s judge.Speed, firings []judge.JudgedFiring, origin []int) (m speedMean, ok bool) {
	var fired, light float64 // means of the true deviations: between the edges heard, and between the starts
	n := 0
	for _, f := range s.Firings {
		if !firings[f].Judged {
			continue
		}
		if origin[f] < 0 {
			return m, false
		}
		t := o.truth.Firings[origin[f]]
		fired += math.Log2(duration(t, firings[f].Edge) / t.Nominal)
		light += math.Log2(t.Duration() / t.Nominal)
		n++
	}
	if n == 0 {
		return m, false
	}
	fired, light = fired/float64(n), light/float64(n)
	drawn := o.recording.Take.Shutter.Deviation + fired - light
	b := s.Summary.Budget
	return speedMean{s.Mark.Label, s.Summary.Deviation - drawn, s.Summary.U95, s.Summary.Deviation - fired, b.Onset}, true
}
