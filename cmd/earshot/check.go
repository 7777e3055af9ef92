package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"earshot/report"
	"earshot/report/chart"
	"earshot/report/labels"
	"earshot/shutter"
)

const checkLong = `check finds the firings of one lens in its clips, judges each speed and prints a
table. Several clips are one lens.

Speeds are told with --speeds in the order fired, as on the dial or in full: 1, 1/30,
30 (for 1/30), 2s, 0.5s; x and a count tells how many firings. Without it a clip's
name may carry its speed in full (corvane-105_1-4s.wav). Without either the nearest
marks are assumed, and only repeatability and faults can be judged.

A focal-plane shutter is told with --shutter focal-plane: its two curtains sound
alike, and are timed from the stop of the one to the stop of the other.

Firings that were heard wrongly are put right by hand: --labels writes those of one
clip as labels, a line each (start, end and label, tabs between), that sound editors
show under the sound; --use-labels judges from them once they are corrected. A label
that begins with a speed settles it; one without length is a firing that never closed.

Whether it heard right shows at a glance with --firings: a picture of the sound of every
firing, opening and closing marked; many firings take several, as FILE, FILE-2 and so on.
--explain 3 says what speaks for firing 3 being one, and --explain 12.5s why none was
heard there; with it --firings draws that alone.`

const checkExample = `  earshot check corvane-105.wav --speeds "1x3 1/2x3 1/4x3 1/8x3 1/15x3 1/30x5" --lens "Corvane 105 mm f/3.5"
  earshot check corvane-105_1s.wav corvane-105_1-2s.wav --chart corvane-105.png --record corvane-105.json
  earshot check corvane-105.wav --use-labels corvane-105.txt
  earshot check corvane-105.wav --firings corvane-105-firings.png
  earshot check corvane-105.wav --explain 12.5s --firings why.png`

func newCheck(a app) *cobra.Command {
	var f checkFlags
	c := &cobra.Command{
		Use:     "check CLIP...",
		Short:   "Judge the speeds of one lens from its clips",
		Long:    checkLong,
		Example: checkExample,
		Args:    arguments(someClips),
	}
	f.define(c)
	c.RunE = func(c *cobra.Command, clips []string) error {
		o, err := f.options(c, clips)
		if err != nil {
			return misuse(c, err)
		}
		return a.check(c.Context(), o)
	}
	return c
}

func someClips(_ *cobra.Command, args []string) error {
	if len(args) == 0 {
		return errors.New("no clip was named: name the recordings of one lens")
	}
	return nil
}

// check checks one lens: it hears its clips, judges and writes.
func (a app) check(ctx context.Context, o checkOptions) error {
	set, err := o.readLabels()
	if err != nil {
		return err
	}
	o.set = set
	all, d, missed, err := o.examineHeard(ctx)
	for _, m := range missed {
		a.complain(failureOf(m))
	}
	if err != nil {
		return err
	}
	if err := o.writeFiles(d); err != nil {
		return err
	}
	if err := a.answer(ctx, o, all, d); err != nil {
		return err
	}
	a.warn(d)
	return o.status(d, len(missed))
}

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
}

// examine hears the clips of the sitting and judges them. Missed says of each clip
// that was left out why, whether or not the rest could be judged.
func (o sitting) examine(ctx context.Context) (d report.Document, missed []error, err error) {
	_, d, missed, err = o.examineHeard(ctx)
	return d, missed, err
}

// examineHeard is like examine, and returns what was heard too.
func (o sitting) examineHeard(ctx context.Context) (all []heard, d report.Document, missed []error, err error) {
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
func (o sitting) hearAll(ctx context.Context) (all []heard, missed []error, err error) {
	for _, path := range o.clips {
		h, err := hear(ctx, path, len(all), o.kind)
		switch twin := twinOf(all, h); {
		case err == nil && twin != "":
			return nil, missed, fault{report.Failure{Code: "same-clip", File: path,
				Message: "holds the same bytes as " + twin, Hint: "name each recording once: the same firings twice prove nothing more"}, errSameClip}
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
	f := failureOf(err)
	f.Hint = strings.TrimPrefix(f.Hint+"; nothing was judged: without this clip the settings told could be laid against the wrong firings", "; ")
	return fault{f, err}
}

// errSameClip is a recording named twice, under one name or two.
var errSameClip = errors.New("the same clip twice")

// twinOf is the name of the clip heard before that holds the same bytes as h, empty
// where there is none.
func twinOf(all []heard, h heard) string {
	for i := range all {
		if all[i].facts.SHA256 == h.facts.SHA256 {
			return all[i].facts.File
		}
	}
	return ""
}

// judge lays the firings against the speeds and judges them.
func (o sitting) judge(all []heard) report.Document {
	var (
		firings []shutter.Firing
		marks   []shutter.Mark
		facts   = report.Facts{Version: version, Made: o.now, Lens: o.lens, Told: o.steps, Observed: o.seen, ObservedBy: o.seenBy}
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
func fromNames(all []heard, marks []shutter.Mark) []string {
	var lines []string
	for i, m := range marks {
		if m != (shutter.Mark{}) {
			lines = append(lines, fmt.Sprintf("%s was taken from the name of %s: tell the speeds with --speeds if it is another", m.Label, all[i].facts.File))
		}
	}
	return lines
}

func (o checkOptions) writeFiles(d report.Document) error {
	if o.record != "" {
		if err := writeFile(o.record, func(f *os.File) error { return report.WriteJSON(f, d) }); err != nil {
			return err
		}
	}
	if o.labels != "" {
		if err := writeFile(o.labels, func(f *os.File) error { return labels.Write(f, d) }); err != nil {
			return err
		}
	}
	if o.chart == "" {
		return nil
	}
	return writeFile(o.chart, func(f *os.File) error { return chart.Write(f, d, o.chartFormat) })
}

func (o checkOptions) print(w io.Writer, d report.Document) error {
	switch {
	case o.json:
		return report.WriteJSON(w, d)
	case o.csv:
		return report.WriteCSV(w, d)
	}
	return report.WriteText(w, d)
}

// warn says what is doubtful about the clips.
func (a app) warn(d report.Document) {
	for _, c := range d.Clips {
		a.warnOf(c)
	}
}

func (a app) warnOf(c report.Clip) {
	for _, w := range c.Warnings {
		fmt.Fprintf(a.stderr, "earshot: warning: %s: %s\n", report.Printable(c.File), report.Printable(w.Message))
	}
}

func (o checkOptions) status(d report.Document, missed int) error {
	switch {
	case missed > 0:
		return exitStatus(exitSome)
	case o.strict && d.Verdict == shutter.ServiceAdvised:
		return exitStatus(exitService)
	case o.strict && d.Verdict == shutter.NotJudged:
		return exitStatus(exitNotJudged)
	}
	return nil
}
