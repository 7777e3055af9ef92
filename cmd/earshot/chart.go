package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"earshot/report"
	"earshot/report/chart"
)

func newChart(a app) *cobra.Command {
	var out string
	c := &cobra.Command{
		Use:   "chart RECORD",
		Short: "Draw the chart of a record",
		Long: `chart draws the chart of a record that check --record or check --json wrote: a PNG,
the picture for a listing, or SVG or PDF by the ending of --out. It prints the name of
the picture.`,
		Example: "  earshot chart corvane-105.json\n  earshot chart corvane-105.json --out corvane-105.pdf",
		Args:    arguments(oneRecord),
	}
	c.Flags().StringVarP(&out, "out", "o", "", "file to draw into (.png, .svg or .pdf); beside the record as PNG if not given")
	c.RunE = func(c *cobra.Command, args []string) error {
		record := args[0]
		if out == "" {
			out = strings.TrimSuffix(record, filepath.Ext(record)) + ".png"
		}
		format, err := chart.FormatOf(out)
		if err != nil {
			return usageError{c, fmt.Errorf("--out %s: %w", out, err)}
		}
		return a.chart(record, out, format)
	}
	return c
}

func oneRecord(_ *cobra.Command, args []string) error {
	switch len(args) {
	case 0:
		return errors.New("no record was named: name a file that earshot check --record wrote")
	case 1:
		return nil
	}
	return fmt.Errorf("%d records were named, and one is drawn at a time", len(args))
}

func (a app) chart(record, out string, format chart.Format) error {
	d, err := readRecord(record)
	if err != nil {
		return err
	}
	if err := refuseClobber(out, []string{record}); err != nil {
		return err
	}
	if err := writeFile(out, func(f *os.File) error { return chart.Write(f, d, format) }); err != nil {
		return err
	}
	_, err = fmt.Fprintln(a.stdout, report.Printable(out))
	return err
}

// readRecord reads a record from a regular file.
func readRecord(path string) (report.Document, error) {
	f, err := openRegular(path)
	if err != nil {
		return report.Document{}, fileFault("unreadable", path, "the record cannot be read", err, "check the name, the folder and its permissions")
	}
	defer f.Close()
	d, err := report.Read(f)
	if err != nil {
		return report.Document{}, fault{report.Failure{Code: recordCode(err), File: path, Message: err.Error(), Hint: recordHint(err)}, err}
	}
	return d, nil
}

func recordCode(err error) string {
	switch {
	case errors.Is(err, report.ErrNotRecord):
		return "not-a-record"
	case errors.Is(err, report.ErrOtherSchema):
		return "other-schema"
	case errors.Is(err, report.ErrFailed):
		return "failed-check"
	}
	return "damaged-record"
}

func recordHint(err error) string {
	switch {
	case errors.Is(err, report.ErrOtherSchema):
		return "use the version of earshot that wrote it, or a newer one"
	case errors.Is(err, report.ErrNotRecord):
		return "name a file that earshot check --record wrote"
	}
	return "check the clips again with earshot check --record"
}
