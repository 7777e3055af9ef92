package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"earshot/report"
	"earshot/report/settings"
	"earshot/report/sheet"
	"earshot/report/words"
)

const sheetLong = `sheet makes the one page that goes with a lens for sale from a record that check
--record or drawer wrote: HTML, or PDF by the ending of --out. It says what was judged and
how it came out, with the chart, what was not tested, and how to measure it again.

--observed names a file with what a person saw and sound can't tell, printed as that:

  by = "R. Marrable"
  fast_speeds = "all seen to open"
  flash_contact = "fires"
  glass = "clean, a little dust"
  body = "worn at the corners"

No sheet is made of speeds that were assumed: tell them to check with --speeds.
--listing prints three sentences to paste into a listing instead.`

// sheetOptions are what sheet was asked for.
type sheetOptions struct {
	record, out, observed string
	clips                 []string
	listing               bool
}

func newSheet(a app) *cobra.Command {
	var o sheetOptions
	c := &cobra.Command{
		Use:     "sheet RECORD",
		Short:   "Make the page for a listing from a record",
		Long:    sheetLong,
		Example: "  earshot sheet corvane-105.json --out corvane-105.pdf --observed corvane-105.toml\n  earshot sheet corvane-105.json --listing",
		Args:    arguments(oneRecord()),
	}
	c.Flags().StringVarP(&o.out, "out", "o", "", "file to write (.html or .pdf); beside the record as HTML if not given")
	c.Flags().StringVar(&o.observed, "observed", "", "file with what a person saw (.toml)")
	c.Flags().StringSliceVar(&o.clips, "clip", nil, "the recording, where it no longer lies beside the record under its name")
	c.Flags().BoolVar(&o.listing, "listing", false, "print three sentences for a listing instead")
	c.RunE = func(c *cobra.Command, args []string) error {
		o.record = args[0]
		if o.out == "" {
			o.out = strings.TrimSuffix(o.record, filepath.Ext(o.record)) + ".html"
		}
		if kind := strings.ToLower(filepath.Ext(o.out)); kind != ".html" && kind != ".pdf" {
			return usageError{c, fmt.Errorf("--out %s: a sheet is .html or .pdf", o.out)}
		}
		return a.sheet(c.Context(), o)
	}
	return c
}

func (a app) sheet(ctx context.Context, o sheetOptions) error {
	d, err := readRecord(o.record)
	if err != nil {
		return err
	}
	if o.observed != "" {
		if d.Observed, d.ObservedBy, err = readObserved(o.observed); err != nil {
			return err
		}
	}
	s, err := sheet.New(d, onRecordBeside(o.record, d))
	if err != nil {
		return newFault(report.Failure{Code: "no-sheet", File: o.record, Message: "no sheet is made: " + err.Error(), Hint: "tell the settings to earshot check with --speeds, and keep the record with --record"}, err)
	}
	if o.listing {
		_, err := fmt.Fprintln(a.stdout, words.Printable(s.Listing()))
		return err
	}
	paths, err := a.clipsOf(o, d)
	if err != nil {
		return err
	}
	if err := refuseClobber(o.out, append(paths, o.record, o.observed)); err != nil {
		return err
	}
	if paths != nil {
		if s.Strip, err = a.drawHeard(ctx, s, paths); err != nil {
			return err
		}
	}
	if err := writeFile(o.out, func(f *os.File) error { return writeSheet(f, s, o.out) }); err != nil {
		return err
	}
	_, err = fmt.Fprintln(a.stdout, words.Printable(o.out))
	return err
}

// writeSheet writes a sheet in the format that a file's name ends in.
func writeSheet(w io.Writer, s sheet.Sheet, name string) error {
	if strings.EqualFold(filepath.Ext(name), ".pdf") {
		return sheet.WritePDF(w, s)
	}
	return sheet.WriteHTML(w, s)
}

func readObserved(path string) ([]report.Observation, string, error) {
	f, err := openRegular(path)
	if err != nil {
		return nil, "", unreadable(path, "what was seen cannot be read", err)
	}
	defer f.Close()
	seen, by, err := settings.ReadObserved(f)
	if err != nil {
		return nil, "", refused("bad-observations", path, err, "see earshot sheet --help for what it holds")
	}
	return seen, by, nil
}
