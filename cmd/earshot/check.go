package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"

	"github.com/spf13/cobra"

	"earshot/cmd/internal/files"
	"earshot/cmd/internal/sitting"
	"earshot/report"
	"earshot/report/chart"
	"earshot/report/chart/paper"
	"earshot/report/labels"
	"earshot/report/words"
	"earshot/report/write"
	"earshot/shutter"
	"earshot/shutter/judge"
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

--firings shows at a glance whether it heard right: it draws the sound of every firing,
opening and closing marked; many firings take several pictures, FILE, FILE-2 and so on.
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
	var err error
	if o.useLabels != "" {
		if o.Set, err = sitting.ReadHandSet(o.useLabels); err != nil {
			return err
		}
	}
	o.Version, o.Notes = version, a.stderr
	all, d, missed, err := o.ExamineHeard(ctx)
	for _, m := range missed {
		a.complain(failureOf(m))
	}
	if err != nil {
		return err
	}
	if err := o.writeFiles(ctx, d); err != nil {
		return err
	}
	if err := a.answer(ctx, o, all, d); err != nil {
		return err
	}
	a.warn(d)
	return o.status(d, len(missed))
}

// checkFlags are the flags of check as they were written.
type checkFlags struct {
	speeds, explain string
	temperature     float64
	kindFlag
	policyFlags
	dateFlag
	checkOptions
}

// checkOptions are what check was asked for.
type checkOptions struct {
	sitting.Sitting
	json, csv, strict bool
	chart, record     string
	labels, useLabels string
	chartFormat       paper.Format
	firings           string
	firingsFormat     paper.Format
	explain           *explained // nil unless asked
}

func (f *checkFlags) define(c *cobra.Command) {
	s := c.Flags()
	s.StringVar(&f.speeds, "speeds", "", "dial settings in the order fired, as in \"1x3 1/2x3 1/4x5\"")
	f.kindFlag.define(c)
	s.StringVar(&f.Lens.Name, "lens", "", "name of the lens")
	s.StringVar(&f.Lens.Serial, "serial", "", "serial number of the lens")
	s.StringVar(&f.Lens.Note, "note", "", "anything worth keeping with the record")
	s.StringVar(&f.Lens.Rested, "rested", "", "how long the shutter had not been fired, as in 90d (h, d, w, y)")
	s.Float64Var(&f.temperature, "temperature", 0, "temperature of the lens, °C")
	f.policyFlags.define(c)
	s.BoolVar(&f.json, "json", false, "print the record as JSON")
	s.BoolVar(&f.csv, "csv", false, "print one row a firing as CSV")
	s.StringVar(&f.chart, "chart", "", "draw the chart into this file (.png, .svg or .pdf)")
	s.StringVar(&f.firings, "firings", "", "draw the sound of each firing into this file (.png or .svg)")
	s.StringVar(&f.explain, "explain", "", "print why a firing is one (3), or why there is none at a time (12.5s), in place of the table; --firings then draws that alone")
	s.StringVar(&f.record, "record", "", "write the record into this file, as JSON")
	s.StringVar(&f.labels, "labels", "", "write the firings into this file as labels for a sound editor (start, end, label; tabs between)")
	s.StringVar(&f.useLabels, "use-labels", "", "judge the firings as this file of labels has them, corrected by hand, instead of as heard")
	f.dateFlag.define(c)
	s.BoolVar(&f.strict, "strict", false, "exit with 4 when service is advised, with 5 when nothing was judged")
}

// options reads the flags; its errors are of usage.
func (f checkFlags) options(c *cobra.Command, clips []string) (checkOptions, error) {
	o := f.checkOptions
	o.Clips = clips
	if o.json && o.csv {
		return o, errors.New("--json and --csv both print to standard output: choose one (--record FILE writes the JSON beside)")
	}
	var err error
	if o.Kind, err = f.kindFlag.read(); err != nil {
		return o, err
	}
	o.Lens.Shutter = string(o.Kind)
	if c.Flags().Changed("speeds") {
		if o.Steps, err = shutter.ParseSteps(f.speeds); err != nil {
			return o, fmt.Errorf("--speeds: %w", err)
		}
	}
	if o.Policy, err = f.policyFlags.read(); err != nil {
		return o, err
	}
	if o.Now, err = f.dateFlag.read(); err != nil {
		return o, err
	}
	if c.Flags().Changed("temperature") {
		if err := report.CheckTemperature(f.temperature); err != nil {
			return o, fmt.Errorf("--temperature %g: %w", f.temperature, err)
		}
		o.Lens.Temperature = &f.temperature
	}
	if o.Lens.Rested != "" {
		if err := report.CheckRested(o.Lens.Rested); err != nil {
			return o, fmt.Errorf("--rested %q: %w", o.Lens.Rested, err)
		}
	}
	if c.Flags().Changed("explain") {
		if err := o.checkExplain(f.explain); err != nil {
			return o, err
		}
	}
	return o, o.checkFiles(c)
}

// checkFiles looks at the files to be written before any work is done.
func (o *checkOptions) checkFiles(c *cobra.Command) (err error) {
	outputs := []string{"chart", "firings", "record", "labels"}
	named := map[string]string{} // the flag that names a file
	for _, name := range append(outputs, "use-labels") {
		file := c.Flag(name).Value.String()
		if err := checkNamed(c, name); err != nil {
			return err
		}
		if other := named[file]; file != "" && other != "" {
			return fmt.Errorf("--%s and --%s name one file", other, name)
		}
		named[file] = name
	}
	if o.chartFormat, err = pictureFormat(c, "chart", paper.PNG, paper.SVG, paper.PDF); err != nil {
		return err
	}
	if o.firingsFormat, err = pictureFormat(c, "firings", paper.PNG, paper.SVG); err != nil {
		return err
	}
	if err := o.checkLabels(); err != nil {
		return err
	}
	for _, name := range outputs {
		if err := files.RefuseClobber(c.Flag(name).Value.String(), append(slices.Clone(o.Clips), o.useLabels)); err != nil {
			return err
		}
	}
	return nil
}

func (o checkOptions) writeFiles(ctx context.Context, d report.Document) error {
	if o.record != "" {
		if err := files.Write(ctx, o.record, func(f *os.File) error { return write.JSON(f, d) }); err != nil {
			return err
		}
	}
	if o.labels != "" {
		if err := files.Write(ctx, o.labels, func(f *os.File) error { return labels.Write(f, d) }); err != nil {
			return err
		}
	}
	if o.chart == "" {
		return nil
	}
	return files.Write(ctx, o.chart, func(f *os.File) error { return chart.Write(f, d, o.chartFormat) })
}

func (o checkOptions) print(w io.Writer, d report.Document) error {
	switch {
	case o.json:
		return write.JSON(w, d)
	case o.csv:
		return write.CSV(w, d)
	}
	return write.Text(w, d)
}

// warn says what is doubtful about the clips.
func (a app) warn(d report.Document) {
	for _, c := range d.Clips {
		a.warnOf(c)
	}
}

func (a app) warnOf(c report.Clip) {
	for _, w := range c.Warnings {
		fmt.Fprintf(a.stderr, "earshot: warning: %s: %s\n", words.Printable(c.File), words.Printable(w.Message))
	}
}

func (o checkOptions) status(d report.Document, missed int) error {
	switch {
	case missed > 0:
		return exitStatus(exitSome)
	case o.strict && d.Verdict == judge.ServiceAdvised:
		return exitStatus(exitService)
	case o.strict && d.Verdict == judge.NotJudged:
		return exitStatus(exitNotJudged)
	}
	return nil
}

// checkLabels refuses labels for several clips: their times are those of one.
func (o *checkOptions) checkLabels() error {
	if len(o.Clips) > 1 && (o.labels != "" || o.useLabels != "") {
		return fmt.Errorf("labels are of one clip, and %d were named: check each by itself", len(o.Clips))
	}
	return nil
}
