package report

import (
	"fmt"
	"math"
	"strings"

	"earshot/report/words"
	"earshot/shutter"
	"earshot/shutter/judge"
)

// Title names the lens, and number is its serial number where there is one.
func (d Document) Title() (name, number string) {
	name = d.Lens.Name
	if name == "" {
		name = "Unnamed lens"
	}
	if d.Lens.Serial != "" {
		number = ", no. " + d.Lens.Serial
	}
	return name, number
}

// VerdictWords is the verdict with the speeds it holds for, since it never holds for the whole
// lens: "Shutter: good at the speeds measured, 1 to 1/30 s".
func (d Document) VerdictWords() string {
	scope := d.Scope()
	if scope == "" {
		return "Shutter: " + d.Verdict.String()
	}
	words := fmt.Sprintf("Shutter: %s at the speeds measured, %s", d.Verdict, scope)
	if d.Partly {
		words += " (partly checked)"
	}
	return words
}

// Scope lists the speeds that were judged; empty where none was.
func (d Document) Scope() string {
	var judged []Speed
	for _, s := range d.Speeds {
		if s.Verdict != judge.NotJudged {
			judged = append(judged, s)
		}
	}
	return marksOf(judged)
}

// marksOf lists speeds, as a range where no speed of the dial is left out between
// three or more: "1 to 1/30 s", "1, 1/8 s".
func marksOf(speeds []Speed) string {
	var marks []string
	gap, last := false, 0.0
	for _, s := range speeds {
		gap = gap || last/s.Nominal > widestStep
		last = s.Nominal
		marks = append(marks, strings.TrimSuffix(s.Marked, "s"))
	}
	switch {
	case len(marks) == 0:
		return ""
	case len(marks) < 3 || gap:
		return strings.Join(marks, ", ") + " s"
	}
	return marks[0] + " to " + marks[len(marks)-1] + " s"
}

// widestStep is a little more than the largest ratio between neighbours on a dial: that from
// 1/2 to 1/5 and from 1/10 to 1/25 in the older series.
const widestStep = 2.55

// Cells are the figures of a speed as a table shows them, "-" where there is none.
type Cells struct{ Exact, Measured, Off, U95, Spread, Firings string }

// Cells are the figures of the speed in words.
func (s Speed) Cells() Cells {
	c := Cells{
		Exact: words.ExactMilliseconds(s.Nominal) + " ms", Measured: "-", Off: "-", U95: words.Dash(s.U95, "±%.2f stop"),
		Spread: words.Dash(s.Spread, "%.2f stop"), Firings: fmt.Sprint(s.N),
	}
	switch {
	case s.Mean != nil && s.Deviation != nil:
		c.Measured, c.Off = words.Milliseconds(*s.Mean)+" ms", shutter.DeviationText(*s.Deviation)
	case s.Median != nil:
		c.Measured, c.Off = "median "+words.Milliseconds(s.MedianTime())+" ms", shutter.DeviationText(*s.Median)
	}
	if s.N != len(s.Firings) {
		c.Firings = fmt.Sprintf("%d of %d", s.N, len(s.Firings))
	}
	return c
}

// Recordings names the clips, with enough of their checksums to tell them apart.
func (d Document) Recordings() string {
	var clips []string
	for _, c := range d.Clips {
		clips = append(clips, fmt.Sprintf("%s (sha256 %s)", c.File, words.Short(c.SHA256)))
	}
	return "Sound recording: " + strings.Join(clips, ", ")
}

// MedianTime is the duration in s behind the median deviation, the nominal time
// where there is none.
func (s Speed) MedianTime() float64 {
	if s.Median == nil {
		return s.Nominal
	}
	return s.Nominal * math.Exp2(*s.Median)
}
