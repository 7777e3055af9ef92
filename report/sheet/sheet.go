// Package sheet makes the one page that goes with a lens for sale: what was judged and
// how it came out, for a stranger to understand and to check.
//
// [New] works out what the page says; [WriteHTML] and [WritePDF] set it, on one page of
// A4, and [Listing] says it in three sentences. What a person saw, and sound can't tell,
// is printed as that and never mixed with what was measured.
package sheet

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"earshot/report"
	"earshot/report/chart/heard"
	"earshot/report/chart/paper"
	"earshot/report/words"
	"earshot/shutter"
	"earshot/shutter/judge"
)

// Why a record makes no sheet.
var (
	ErrAssumed = errors.New("the speeds were assumed, not told")
	ErrNothing = errors.New("no firing lies at a known speed")
)

// Sheet is what the page says.
type Sheet struct {
	House         string
	Title, Number string
	Scope         string // what was judged, and when
	Verdict       string
	Plainly       string // the verdict to one who does not know the word
	Findings      []string
	Rows          []Row
	Meter         []string // true times to set a meter by
	Observed      []report.Observation
	ObservedBy    string
	Tested        []string
	NotTested     []string
	Cautions      []string
	How           []string
	Record        report.Document
	Strip         []byte // picture (PNG) of the firings of [Sheet.Heard], nil where the recording is not at hand
}

// What a strip of firings measures, in points of 1/72 inch: as wide as the page's text.
const StripWidth, StripHeight = 516, 78

// mostHeard is how many firings are shown in a strip.
const mostHeard = 6

// Heard are the firings whose sound the sheet shows, as indices into the record. They are those
// of the slowest speed that decides the verdict. If a symptom of the whole shutter decides it,
// they are those of the slowest speed.
func (s Sheet) Heard() []int {
	firings := s.shown().Firings
	return firings[:min(len(firings), mostHeard)]
}

// DrawHeard draws the firings of [Sheet.Heard]. It reads their sound by look, and is nil if there
// are none.
func (s Sheet) DrawHeard(look heard.Look) ([]byte, error) {
	if len(s.Heard()) == 0 {
		return nil, nil
	}
	return heard.DrawStrip(s.Record, s.Heard(), look, StripWidth, StripHeight, paper.PNG)
}

func (s Sheet) shown() (shown report.Speed) {
	for _, speed := range slices.Backward(s.Record.Speeds) {
		decides := speed.Verdict == s.Record.Verdict
		if len(speed.Firings) > 0 && (decides || shown.Verdict != s.Record.Verdict) {
			shown = speed
		}
	}
	return shown
}

// StripWords say what the strip shows.
func (s Sheet) StripWords() string {
	return fmt.Sprintf("The firings at %s as they were heard, opening ▼ and closing ▲ marked", words.Mark(s.shown().Marked))
}

// Row is one speed of the table.
type Row struct {
	Marked, Exact, Measured, Off, U95, Spread, Firings, Verdict string
	Strong                                                      bool // service is advised
}

// New makes the sheet of a record. onRecord are the records of this serial number, with this one;
// none if the number is not known. No sheet is made of assumed speeds, since a shutter that is
// half a stop off could be sold as one on its mark.
func New(d report.Document, onRecord []report.Document) (Sheet, error) {
	switch {
	case len(d.Speeds) == 0:
		return Sheet{}, ErrNothing
	case slices.ContainsFunc(d.Speeds, func(s report.Speed) bool { return s.Assumed }):
		return Sheet{}, ErrAssumed
	}
	name, number := d.Title()
	s := Sheet{
		House: d.Policy.House, Title: name, Number: number, Scope: scope(d), Verdict: d.Verdict.String(), Plainly: plainly(d),
		Findings: findings(d), Meter: meter(d), Observed: d.Observed, ObservedBy: d.ObservedBy,
		Tested: tested(d), NotTested: notTested(d), Cautions: cautions, How: how(d, onRecord), Record: d,
	}
	for _, speed := range d.Speeds {
		s.Rows = append(s.Rows, newRow(speed))
	}
	return s, nil
}

// findings are the headlines, without the meaning of the verdict steady, which stands beside it,
// and without empty reasons.
func findings(d report.Document) []string {
	return slices.DeleteFunc(d.Headlines(), func(line string) bool {
		return line == "" || d.Verdict == judge.Steady && line == d.SteadyWords()
	})
}

func scope(d report.Document) string {
	where := d.Scope()
	if where == "" {
		return "No speed could be judged. Recorded " + words.Date(d.Made)
	}
	return fmt.Sprintf("Slow speeds %s, measured by sound on %s", where, words.Date(d.Made))
}

// plainly says what the verdict means.
func plainly(d report.Document) string {
	partly := ""
	if d.Partly {
		partly = " This is a partial check: what is missing is named below."
	}
	switch {
	case d.Verdict == judge.Good:
		return "Every speed measured is near its mark and repeats." + partly
	case d.Verdict == judge.Steady && d.SteadyWords() == "":
		return "Every speed judged is near its mark and repeats, but one speed is not known well enough to call the whole good." + partly
	case d.Verdict == judge.Steady:
		return "It repeats, but is off its mark or near a limit at some speeds: go by the true times below." + partly
	case d.Verdict == judge.ServiceAdvised:
		return "It should be looked at by a repairer before it is relied on at the speeds named." + partly
	}
	return "The recording does not allow a judgement."
}

func newRow(s report.Speed) Row {
	c := s.Cells()
	return Row{Marked: words.Mark(s.Marked), Exact: c.Exact, Measured: c.Measured, Off: c.Off, U95: c.U95, Spread: c.Spread,
		Firings: c.Firings, Verdict: s.Verdict.String(), Strong: s.Verdict == judge.ServiceAdvised}
}

// meter gives the true time of every steady speed.
func meter(d report.Document) []string {
	var lines []string
	for _, s := range d.Speeds {
		if s.Verdict == judge.Steady && s.Mean != nil && s.Deviation != nil {
			lines = append(lines, fmt.Sprintf("%s: true time %s ms; set a meter %s", words.Mark(s.Marked), words.Milliseconds(*s.Mean), shutter.MeterText(*s.Deviation)))
		}
	}
	return lines
}

// Listing says in three sentences what a listing needs, as plain text.
func (s Sheet) Listing() string {
	d := s.Record
	where := d.Scope()
	if where == "" {
		where = "no speed"
	}
	findings := "nothing to add"
	if len(s.Findings) > 0 {
		findings = strings.Join(s.Findings, "; ")
	}
	return fmt.Sprintf("%s%s: the shutter was measured by sound on %s at %s, and the verdict is: %s. %s. "+
		"Fast speeds, aperture, flash contacts and film transport were not tested; sound is not light (earshot %s, %s).",
		s.Title, s.Number, words.Date(d.Made), where, s.Verdict, words.Capital(findings), d.Tool.Version, clips(d))
}

func clips(d report.Document) string {
	var names []string
	for _, c := range d.Clips {
		names = append(names, fmt.Sprintf("%s sha256 %s", c.File, words.Short(c.SHA256)))
	}
	return strings.Join(names, ", ")
}
