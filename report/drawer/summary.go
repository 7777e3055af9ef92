package drawer

import (
	"slices"
	"strings"
	"time"

	"earshot/report"
	"earshot/shutter/judge"
)

// Summary is what became of the lenses of a drawer, in the order to be looked at.
type Summary struct {
	Name    string // of the folder
	Version string
	Made    time.Time // of the latest record; the time of the run where there is none
	Entries []Entry
	Extra   []string // names of further columns of the list
	Notes   []string // what else is to be said, a sentence each
}

// Entry is what became of one lens.
type Entry struct {
	Lens    Lens
	Record  *report.Document // nil where the lens could not be checked
	Files   []File           // written for it
	Failure *report.Failure  // why it could not be checked, its file below the drawer; nil where it could
	Missed  []report.Failure // clips that were left out, alike
}

// File is one of the files written for a lens.
type File struct {
	Kind string // "record", "chart", "sheet"
	Name string // beside the index
}

// NotChecked stands where a verdict would.
const NotChecked = "not checked"

// Verdict is the lens's verdict in a word or two, or NotChecked.
func (e Entry) Verdict() string {
	if e.Record == nil {
		return NotChecked
	}
	return e.Record.Verdict.String()
}

// Attention says how soon a lens is to be looked at: 0 at first.
func (e Entry) Attention() int {
	switch {
	case e.Record == nil:
		return 1
	case e.Record.Verdict == judge.ServiceAdvised:
		return 0
	case e.Record.Verdict == judge.NotJudged:
		return 2
	case e.Record.Verdict == judge.Steady:
		return 3
	}
	return 4
}

// Failures are why the lens, or some of its clips, could not be checked.
func (e Entry) Failures() []report.Failure {
	all := slices.Clone(e.Missed)
	if e.Failure != nil {
		all = append(all, *e.Failure)
	}
	return all
}

// Found says in plain words what matters most about the lens.
func (e Entry) Found() []string {
	if e.Record == nil {
		return []string{strings.TrimPrefix(e.Failure.File+": "+e.Failure.Message, ": ")}
	}
	found := e.Record.Headlines()
	for _, c := range e.Record.Clips {
		if limits := c.Sound.Limits(); len(limits) > 0 {
			found = append(found, c.File+": timing is limited by the recording: "+strings.Join(limits, ", "))
		}
	}
	return found
}

// ToDo says what would settle or improve the verdict; empty where nothing would, or
// where the lens is good already.
func (e Entry) ToDo() string {
	switch {
	case e.Record == nil:
		return e.Failure.Hint
	case e.Record.Verdict == judge.Good && !e.Record.Partly:
		return ""
	}
	return e.Record.Next
}

// Judged says which speeds were judged, and whether the check was partial.
func (e Entry) Judged() string {
	switch {
	case e.Record == nil || e.Record.Scope() == "":
		return ""
	case e.Record.Partly:
		return e.Record.Scope() + ", partly checked"
	}
	return e.Record.Scope()
}

// Furthest is the speed that is furthest off its mark by its mean or median, and by
// how many stops; ok is false where there is none, or the marks are assumed.
func (e Entry) Furthest() (speed report.Speed, stops float64, ok bool) {
	if e.Record == nil {
		return
	}
	for _, s := range e.Record.Speeds {
		off := s.Deviation
		if off == nil {
			off = s.Median
		}
		if off != nil && !s.Assumed && (!ok || max(*off, -*off) > max(stops, -stops)) {
			speed, stops, ok = s, *off, true
		}
	}
	return
}

// NewSummary sorts the entries: those that need service first, then those that could not be
// checked or judged, and by name among equals. now is its date if there is no record.
func NewSummary(name, version string, now time.Time, entries []Entry) Summary {
	s := Summary{Name: name, Version: version, Entries: slices.Clone(entries)}
	slices.SortStableFunc(s.Entries, func(a, b Entry) int {
		if d := a.Attention() - b.Attention(); d != 0 {
			return d
		}
		return strings.Compare(strings.ToLower(a.Lens.Title()), strings.ToLower(b.Lens.Title()))
	})
	for _, e := range s.Entries {
		if e.Record != nil && e.Record.Made.After(s.Made) {
			s.Made = e.Record.Made
		}
	}
	if s.Made.IsZero() {
		s.Made = now.Truncate(time.Second)
	}
	return s
}

// Count is how many lenses have a verdict, or NotChecked.
func (s Summary) Count(verdict string) (n int) {
	for _, e := range s.Entries {
		if e.Verdict() == verdict {
			n++
		}
	}
	return n
}

// verdicts are what a lens can have, in the order to be looked at.
func verdicts() []string {
	return []string{judge.ServiceAdvised.String(), NotChecked, judge.NotJudged.String(), judge.Steady.String(), judge.Good.String()}
}
