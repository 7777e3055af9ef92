package main

import (
	"fmt"
	"io"
	"os"

	"earshot/report"
	"earshot/report/chart"
	"earshot/report/labels"
	"earshot/report/words"
	"earshot/report/write"
	"earshot/shutter"
)

func (o checkOptions) writeFiles(d report.Document) error {
	if o.record != "" {
		if err := writeFile(o.record, func(f *os.File) error { return write.JSON(f, d) }); err != nil {
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
	case o.strict && d.Verdict == shutter.ServiceAdvised:
		return exitStatus(exitService)
	case o.strict && d.Verdict == shutter.NotJudged:
		return exitStatus(exitNotJudged)
	}
	return nil
}
