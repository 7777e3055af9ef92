package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"earshot/cmd/internal/files"
	"earshot/cmd/internal/record"
	"earshot/report/chart"
	"earshot/report/chart/paper"
	"earshot/report/words"
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
		Args:    arguments(oneRecord()),
	}
	c.Flags().StringVarP(&out, "out", "o", "", "file to draw into (.png, .svg or .pdf); beside the record as PNG if not given")
	c.RunE = func(c *cobra.Command, args []string) error {
		record := args[0]
		if out == "" {
			out = strings.TrimSuffix(record, filepath.Ext(record)) + ".png"
		}
		format, err := paper.FormatOf(out, paper.PNG, paper.SVG, paper.PDF)
		if err != nil {
			return usageError{c, fmt.Errorf("--out %s: %w", out, err)}
		}
		return a.chart(c.Context(), record, out, format)
	}
	return c
}

func (a app) chart(ctx context.Context, source, out string, format paper.Format) error {
	d, err := record.Read(source)
	if err != nil {
		return err
	}
	if err := files.RefuseClobber(out, []string{source}); err != nil {
		return err
	}
	if err := files.Write(ctx, out, func(f *os.File) error { return chart.Write(f, d, format) }); err != nil {
		return err
	}
	_, err = fmt.Fprintln(a.stdout, words.Printable(out))
	return err
}
