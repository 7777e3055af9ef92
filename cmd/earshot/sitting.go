package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"earshot/report"
	"earshot/shutter"
)

// sitting is what is checked as one lens: its clips, what was told of them, and the
// limits to judge by.
type sitting struct {
	clips  []string
	steps  []shutter.Step
	kind   shutter.Kind
	lens   report.Lens
	policy shutter.Policy
	now    time.Time
	set    *handSet // nil where the times are judged as heard
	seen   []report.Observation
	seenBy string

	version string    // of the program
	notes   io.Writer // gets a line where a clip takes long to be decoded
}

// examine hears the clips of the sitting and judges them. Missed says of each clip
// that was left out why, whether or not the rest could be judged.
func (o sitting) examine(ctx context.Context) (d report.Document, missed []error, err error) {
	_, d, missed, err = o.examineHeard(ctx)
	return d, missed, err
}

// examineHeard is like examine, and returns what was heard too.
func (o sitting) examineHeard(ctx context.Context) (all []Heard, d report.Document, missed []error, err error) {
	if all, missed, err = o.hearAll(ctx); err != nil {
		return nil, d, missed, err
	}
	if err := o.set.correct(all); err != nil {
		return nil, d, missed, err
	}
	return all, o.judge(all), missed, nil
}

// hearAll hears the clips. Where no speeds were told, one that can't be heard is
// missed and left out; told speeds could then be laid against the wrong firings.
func (o sitting) hearAll(ctx context.Context) (all []Heard, missed []error, err error) {
	for _, path := range o.clips {
		h, err := hear(ctx, path, len(all), o.kind, o.notes)
		switch twin := twinOf(all, h); {
		case err == nil && twin != "":
			return nil, missed, newFault(report.Failure{Code: "same-clip", File: path,
				Message: "holds the same bytes as " + twin, Hint: "name each recording once: the same firings twice prove nothing more"}, errSameClip)
		case err == nil:
			all = append(all, h)
		case ctx.Err() != nil || len(o.clips) == 1 || len(missed)+1 == len(o.clips):
			return nil, missed, err
		case len(o.steps) > 0:
			return nil, missed, nothingJudged(err)
		default:
			missed = append(missed, err)
		}
	}
	return all, missed, nil
}

// nothingJudged says of a clip that can't be heard why the others were not judged.
func nothingJudged(err error) error {
	f := faultOf(err)
	f.Hint = strings.TrimPrefix(f.Hint+"; nothing was judged: without this clip the settings told could be laid against the wrong firings", "; ")
	return newFault(f, err)
}

// errSameClip is a recording named twice, under one name or two.
var errSameClip = errors.New("the same clip twice")

// twinOf is the name of the clip heard before that holds the same bytes as h, empty
// where there is none.
func twinOf(all []Heard, h Heard) string {
	for i := range all {
		if all[i].facts.SHA256 == h.facts.SHA256 {
			return all[i].facts.File
		}
	}
	return ""
}

// judge lays the firings against the speeds and judges them.
func (o sitting) judge(all []Heard) report.Document {
	var (
		firings []shutter.Firing
		marks   []shutter.Mark
		facts   = report.Facts{Version: o.version, Made: o.now, Lens: o.lens, Told: o.steps, Observed: o.seen, ObservedBy: o.seenBy}
	)
	for _, h := range all {
		mark, _ := shutter.MarkFromName(h.facts.File)
		marks = append(marks, mark)
		firings = append(firings, h.Firings...)
		facts.Clips = append(facts.Clips, h.facts)
	}
	var laying shutter.Laying
	if len(o.steps) > 0 {
		laying = shutter.Lay(firings, o.steps)
	} else {
		laying = shutter.LayNamed(firings, marks)
		laying.Warnings = append(fromNames(all, marks), laying.Warnings...)
	}
	laying = o.set.settle(laying, firings, o.steps)
	return report.New(shutter.Judge(firings, laying, o.policy), facts)
}

// fromNames says which speeds were taken from the names of clips.
func fromNames(all []Heard, marks []shutter.Mark) []string {
	var lines []string
	for i, m := range marks {
		if m != (shutter.Mark{}) {
			lines = append(lines, fmt.Sprintf("%s was taken from the name of %s: tell the speeds with --speeds if it is another", m.Label, all[i].facts.File))
		}
	}
	return lines
}
