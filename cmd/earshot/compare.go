package main

import (
	"context"
	"errors"
	"os"

	"github.com/spf13/cobra"

	"earshot/cmd/internal/files"
	"earshot/cmd/internal/record"
	"earshot/report"
	"earshot/report/chart"
	"earshot/report/chart/paper"
	"earshot/report/write"
)

const compareLong = `compare says what changed between two records of one shutter, before and after
service say, and whether the change is larger than the uncertainty.

A change is called real where scatter does not explain it (Welch's test, corrected for
the number of speeds after Holm), the rest of the uncertainty does not either, and it
is at least 1/6 stop. --same-set-up says that the same phone lay at the same place both
times: what is not known of the edge is then the same, and drops out.`

// compareOptions are what compare was asked for.
type compareOptions struct {
	before, after string
	sameSetUp     bool
	json          bool
	chart         string
	chartFormat   paper.Format
}

func newCompare(a app) *cobra.Command {
	var o compareOptions
	c := &cobra.Command{
		Use:     "compare OLD NEW",
		Short:   "Say what changed between two records of one lens",
		Long:    compareLong,
		Example: "  earshot compare corvane-before.json corvane-after.json\n  earshot compare corvane-before.json corvane-after.json --same-set-up --chart corvane-service.png",
		Args:    arguments(twoRecords),
	}
	c.Flags().BoolVar(&o.sameSetUp, "same-set-up", false, "the same phone lay at the same place both times")
	c.Flags().BoolVar(&o.json, "json", false, "print the comparison as JSON")
	c.Flags().StringVar(&o.chart, "chart", "", "draw both into this file (.png, .svg or .pdf)")
	c.RunE = func(c *cobra.Command, args []string) (err error) {
		o.before, o.after = args[0], args[1]
		if o.chartFormat, err = pictureFormat(c, "chart", paper.PNG, paper.SVG, paper.PDF); err != nil {
			return misuse(c, err)
		}
		return a.compare(c.Context(), o)
	}
	return c
}

func twoRecords(_ *cobra.Command, args []string) error {
	if len(args) != 2 {
		return errors.New("name two records that earshot check --record wrote, the older one first")
	}
	return nil
}

func (a app) compare(ctx context.Context, o compareOptions) error {
	before, err := record.Read(o.before)
	if err != nil {
		return err
	}
	after, err := record.Read(o.after)
	if err != nil {
		return err
	}
	c := report.Compare(before, after, o.sameSetUp, version)
	if o.chart != "" {
		if err := files.RefuseClobber(o.chart, []string{o.before, o.after}); err != nil {
			return err
		}
		if err := files.Write(ctx, o.chart, func(f *os.File) error { return chart.WriteComparison(f, c, o.chartFormat) }); err != nil {
			return err
		}
	}
	if o.json {
		return write.ComparisonJSON(a.stdout, c)
	}
	return write.Comparison(a.stdout, c)
}
