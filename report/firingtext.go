package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"earshot/report/words"
	"earshot/shutter"
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

// aWall is how many firings in a row that are not counted for the same reason are
// said in one line.
const aWall = 3

// notCounted accounts for the firings that were not counted.
func (d Document) notCounted() []string {
	var lines []string
	for i := 0; i < len(d.Firings); {
		if d.Firings[i].Judged {
			i++
			continue
		}
		end := i + 1
		for end < len(d.Firings) && d.alike(d.Firings[i], d.Firings[end]) {
			end++
		}
		if end-i >= aWall {
			lines = append(lines, d.notCountedAlike(i, end))
			i = end
			continue
		}
		f := d.Firings[i]
		lines = append(lines, fmt.Sprintf("firing %d at %.3f s%s%s: %s", i+1, f.Open, d.inClip(f), f.at(), f.Excuse()))
		i++
	}
	return lines
}

// alike tells whether two firings were not counted for the same reason at the same
// speed of the same clip.
func (d Document) alike(f, g Firing) bool {
	return !f.Judged && !g.Judged && f.Clip == g.Clip && f.where() == g.where() && f.Excuse() == g.Excuse()
}

// notCountedAlike is the line of the firings from first to before end, which are alike.
func (d Document) notCountedAlike(first, end int) string {
	var times []float64
	for _, f := range d.Firings[first:end] {
		if f.Duration != nil && !f.StayedOpen() {
			times = append(times, *f.Duration)
		}
	}
	span := ""
	if len(times) > 0 {
		span = fmt.Sprintf(", %s to %s ms", words.Milliseconds(slices.Min(times)), words.Milliseconds(slices.Max(times)))
	}
	f, last := d.Firings[first], d.Firings[end-1]
	return fmt.Sprintf("firings %d to %d from %.3f to %.3f s%s%s%s: %s", first+1, end, f.Open, last.Open, d.inClip(f), f.where(), span, f.Excuse())
}

func (d Document) inClip(f Firing) string {
	if len(d.Clips) < 2 {
		return ""
	}
	return " of " + d.Clips[f.Clip].File
}

func (f Firing) at() string {
	if f.Duration != nil && !f.StayedOpen() {
		return fmt.Sprintf("%s, %s ms", f.where(), words.Milliseconds(*f.Duration))
	}
	return f.where()
}

func (f Firing) where() string {
	where := ", at no speed"
	if f.Marked != nil {
		where = ", at " + words.Mark(*f.Marked)
	}
	if f.Assumed {
		where += " (assumed)"
	}
	return where
}

// StayedOpen tells whether the blades hung open. What was heard of a closing then is
// no doing of the shutter's, and a time until then no duration.
func (f Firing) StayedOpen() bool { return f.has(shutter.HangsOpen) }

// ClosedEarly tells whether the blades closed much too early.
func (f Firing) ClosedEarly() bool { return f.has(shutter.ClosesEarly) }

// Hesitated tells whether the buzz stopped and went on before the closing.
func (f Firing) Hesitated() bool { return f.has(shutter.Hesitates) }

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
