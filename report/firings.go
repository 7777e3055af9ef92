package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"earshot/report/words"
	"earshot/shutter/judge"
)

// CountWords accounts for every firing: "21 firings heard, 20 counted"; where a person
// had a say in it, "21 firings, 20 counted".
func (d Document) CountWords() string {
	counted := 0
	for _, f := range d.Firings {
		if f.Judged {
			counted++
		}
	}
	all := words.Plural(len(d.Firings), "firing")
	if d.ByHandWords() == "" {
		all += " heard"
	}
	return fmt.Sprintf("%s, %d counted", all, counted)
}

// AtWords says at which speed a firing was made and how long it took: ", at 1/2 s, 510 ms".
func (f Firing) AtWords() string {
	if f.Duration != nil && !f.StayedOpen() {
		return fmt.Sprintf("%s, %s ms", f.WhereWords(), words.Milliseconds(*f.Duration))
	}
	return f.WhereWords()
}

// WhereWords says at which speed a firing was made: ", at 1/2 s (assumed)".
func (f Firing) WhereWords() string {
	where := ", at no speed"
	if f.Marked != nil {
		where = ", at " + words.Mark(*f.Marked)
	}
	if f.Assumed {
		where += " (assumed)"
	}
	return where
}

// StayedOpen tells whether the blades hung open. A later closing is then not the shutter's own,
// and the time until it is no duration.
func (f Firing) StayedOpen() bool { return f.has(judge.HangsOpen) }

// ClosedEarly tells whether the blades closed much too early.
func (f Firing) ClosedEarly() bool { return f.has(judge.ClosesEarly) }

// Hesitated tells whether the buzz stopped and went on before the closing.
func (f Firing) Hesitated() bool { return f.has(judge.Hesitates) }

func (f Firing) has(name judge.SymptomName) bool {
	return slices.Contains(f.Symptoms, string(name))
}

// Excuse is why a firing was not counted.
func (f Firing) Excuse() string {
	switch {
	case f.StayedOpen() && f.Duration != nil:
		return fmt.Sprintf("stayed open, at least %.1f s", math.Floor(*f.Duration*10)/10)
	case f.StayedOpen():
		return "stayed open"
	case f.Reason != "":
		return f.Reason
	case len(f.Symptoms) > 0:
		return strings.Join(f.Symptoms, ", ")
	}
	return "no reason given"
}
