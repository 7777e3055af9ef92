package main

import (
	"errors"
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"earshot/report"
	"earshot/report/chart/paper"
	"earshot/shutter"
)

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
	sitting
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
	s.StringVar(&f.lens.Name, "lens", "", "name of the lens")
	s.StringVar(&f.lens.Serial, "serial", "", "serial number of the lens")
	s.StringVar(&f.lens.Note, "note", "", "anything worth keeping with the record")
	s.StringVar(&f.lens.Rested, "rested", "", "how long the shutter had not been fired, as in 90d (h, d, w, y)")
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
	o.clips = clips
	if o.json && o.csv {
		return o, errors.New("--json and --csv both print to standard output: choose one (--record FILE writes the JSON beside)")
	}
	var err error
	if o.kind, err = f.kindFlag.read(); err != nil {
		return o, err
	}
	o.lens.Shutter = string(o.kind)
	if c.Flags().Changed("speeds") {
		if o.steps, err = shutter.ParseSteps(f.speeds); err != nil {
			return o, fmt.Errorf("--speeds: %w", err)
		}
	}
	if o.policy, err = f.policyFlags.read(); err != nil {
		return o, err
	}
	if o.now, err = f.dateFlag.read(); err != nil {
		return o, err
	}
	if c.Flags().Changed("temperature") {
		if err := report.CheckTemperature(f.temperature); err != nil {
			return o, fmt.Errorf("--temperature %g: %w", f.temperature, err)
		}
		o.lens.Temperature = &f.temperature
	}
	if o.lens.Rested != "" {
		if err := report.CheckRested(o.lens.Rested); err != nil {
			return o, fmt.Errorf("--rested %q: %w", o.lens.Rested, err)
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
		if err := refuseClobber(c.Flag(name).Value.String(), append(slices.Clone(o.clips), o.useLabels)); err != nil {
			return err
		}
	}
	return nil
}
