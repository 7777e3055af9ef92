package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"earshot/shutter"
)

// CountWords accounts for every firing: "21 firings heard, 20 counted".
func (d Document) CountWords() string {
	counted := 0
	for _, f := range d.Firings {
		if f.Judged {
			counted++
		}
	}
	return fmt.Sprintf("%s heard, %d counted", plural(len(d.Firings), "firing"), counted)
}

func (d Document) notCounted() []string {
	var lines []string
	for i, f := range d.Firings {
		if f.Judged {
			continue
		}
		lines = append(lines, fmt.Sprintf("firing %d at %.3f s%s%s: %s", i+1, f.Open, d.inClip(f), f.at(), f.Excuse()))
	}
	return lines
}

func (d Document) inClip(f Firing) string {
	if len(d.Clips) < 2 {
		return ""
	}
	return " of " + d.Clips[f.Clip].File
}

func (f Firing) at() string {
	where := ", at no speed"
	if f.Marked != nil {
		where = ", at " + MarkWords(*f.Marked)
	}
	if f.Assumed {
		where += " (assumed)"
	}
	if f.Duration != nil && !f.StayedOpen() {
		where += fmt.Sprintf(", %s ms", Milliseconds(*f.Duration))
	}
	return where
}

// StayedOpen tells whether the blades hung open. What was heard of a closing then is
// no doing of the shutter's, and a time until then no duration.
func (f Firing) StayedOpen() bool { return f.has(shutter.HangsOpen) }

// ClosedEarly tells whether the blades closed much too early.
func (f Firing) ClosedEarly() bool { return f.has(shutter.ClosesEarly) }

func (f Firing) has(name shutter.SymptomName) bool {
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
