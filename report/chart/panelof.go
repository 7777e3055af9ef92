package chart

import (
	"fmt"
	"math"
	"slices"

	"earshot/report"
	"earshot/report/words"
	"earshot/shutter"
)

// judgedAt tells whether the speed that the i-th firing was made at has a verdict.
func judgedAt(d report.Document, i int) bool {
	return slices.ContainsFunc(d.Speeds, func(s report.Speed) bool {
		return s.Verdict != shutter.NotJudged && slices.Contains(s.Firings, i)
	})
}

// newPanel is the panel of the i-th firing, but for how much of the clip it shows.
func newPanel(d report.Document, i int) Panel {
	f := d.Firings[i]
	p := Panel{
		Clip: f.Clip, Open: f.Open, Close: math.Inf(1), Doubtful: !f.Judged, Judged: f.Judged && judgedAt(d, i),
		Number: fmt.Sprint(i + 1), Caption: fmt.Sprintf("at %.2f s", f.Open), Time: "no closing",
	}
	if len(d.Clips) > 1 {
		p.Caption = fmt.Sprintf("clip %d, %.2f s", f.Clip+1, f.Open)
	}
	switch {
	case f.StayedOpen():
		p.Time, p.Doubtful = "stayed open", false
	case f.Duration != nil:
		p.Close, p.Time = f.Open+*f.Duration, words.Milliseconds(*f.Duration)+" ms"
	}
	if first, name, ok := d.FirstAfterRest(); ok && first == i {
		p.Notes = append(p.Notes, name)
	}
	if f.ClosedEarly() {
		p.Notes = append(p.Notes, earlyWord)
	}
	if f.Hesitated() {
		p.Notes = append(p.Notes, "falters")
	}
	if p.Doubtful {
		p.Number = "? " + p.Number
		p.Notes = append(p.Notes, "not counted: "+f.Excuse())
	}
	return p
}
