// Package sitting makes a record of one lens: from clips, what was told of them and the
// limits to judge by.
//
// A [Sitting] is filled in and examined. Its warnings are in the record; errors of clips that
// could not be heard are returned. [Hear] is one clip by itself, and [Again] shows places of clips
// that were heard. Terminals, flags and exit codes are unknown here.
package sitting

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"earshot/cmd/internal/fault"
	"earshot/report"
	"earshot/shutter"
	"earshot/shutter/assign"
	"earshot/shutter/judge"
)

// Sitting holds what is checked as one lens: its clips, what was told of them, and the limits to
// judge by.
type Sitting struct {
	Clips  []string
	Steps  []shutter.Step
	Kind   shutter.Kind
	Lens   report.Lens
	Policy judge.Policy
	Now    time.Time
	Set    *HandSet // nil where the times are judged as heard
	Seen   []report.Observation
	SeenBy string

	Version string    // of the program
	Notes   io.Writer // gets a line where a clip takes long to be decoded
}

// Examine hears the clips of the sitting and judges them. missed has an error for each clip that
// was left out, even if the rest could not be judged.
func (o Sitting) Examine(ctx context.Context) (d report.Document, missed []error, err error) {
	_, d, missed, err = o.ExamineHeard(ctx)
	return d, missed, err
}

// ExamineHeard is like Examine, and returns what was heard too.
func (o Sitting) ExamineHeard(ctx context.Context) (all []Heard, d report.Document, missed []error, err error) {
	if all, missed, err = o.hearAll(ctx); err != nil {
		return nil, d, missed, err
	}
	if err := o.Set.correct(all); err != nil {
		return nil, d, missed, err
	}
	return all, o.judge(all), missed, nil
}

// hearAll hears the clips. If no speeds were told, a clip that can't be heard is left out. If
// speeds were told, that is an error, since they could be laid against the wrong firings.
func (o Sitting) hearAll(ctx context.Context) (all []Heard, missed []error, err error) {
	for _, path := range o.Clips {
		h, err := Hear(ctx, path, len(all), o.Kind, o.Notes)
		switch twin := twinOf(all, h); {
		case err == nil && twin != "":
			return nil, missed, fault.New(report.Failure{Code: "same-clip", File: path,
				Message: "holds the same bytes as " + twin, Hint: "name each recording once: the same firings twice prove nothing more"}, errSameClip)
		case err == nil:
			all = append(all, h)
		case ctx.Err() != nil || len(o.Clips) == 1 || len(missed)+1 == len(o.Clips):
			return nil, missed, err
		case len(o.Steps) > 0:
			return nil, missed, nothingJudged(err)
		default:
			missed = append(missed, err)
		}
	}
	return all, missed, nil
}

// nothingJudged says of a clip that can't be heard why the others were not judged.
func nothingJudged(err error) error {
	f := fault.Of(err)
	f.Hint = strings.TrimPrefix(f.Hint+"; nothing was judged: without this clip the settings told could be laid against the wrong firings", "; ")
	return fault.New(f, err)
}

// errSameClip is a recording named twice, under one name or two.
var errSameClip = errors.New("the same clip twice")

// twinOf is the name of the clip heard before that holds the same bytes as h, empty
// where there is none.
func twinOf(all []Heard, h Heard) string {
	for i := range all {
		if all[i].Facts.SHA256 == h.Facts.SHA256 {
			return all[i].Facts.File
		}
	}
	return ""
}

// judge lays the firings against the speeds and judges them.
func (o Sitting) judge(all []Heard) report.Document {
	var (
		firings []shutter.Firing
		marks   []shutter.Mark
		facts   = report.Facts{Version: o.Version, Made: o.Now, Lens: o.Lens, Told: o.Steps, Observed: o.Seen, ObservedBy: o.SeenBy}
	)
	for _, h := range all {
		mark, _ := assign.MarkFromName(h.Facts.File)
		marks = append(marks, mark)
		firings = append(firings, h.Firings...)
		facts.Clips = append(facts.Clips, h.Facts)
	}
	var laying assign.Laying
	if len(o.Steps) > 0 {
		laying = assign.Lay(firings, o.Steps)
	} else {
		laying = assign.LayNamed(firings, marks)
		laying.Warnings = append(fromNames(all, marks), laying.Warnings...)
	}
	laying = o.Set.settle(laying, firings, o.Steps)
	return report.New(judge.Judge(firings, laying, o.Policy), facts)
}

// fromNames says which speeds were taken from the names of clips.
func fromNames(all []Heard, marks []shutter.Mark) []string {
	var lines []string
	for i, m := range marks {
		if m != (shutter.Mark{}) {
			lines = append(lines, fmt.Sprintf("%s was taken from the name of %s: tell the speeds with --speeds if it is another", m.Label, all[i].Facts.File))
		}
	}
	return lines
}
