package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"earshot/cmd/internal/fault"
	"earshot/cmd/internal/files"
	"earshot/cmd/internal/record"
	"earshot/cmd/internal/sitting"
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
	d, err := record.Read(o.record)
	if err != nil {
		return err
	}
	if o.observed != "" {
		if d.Observed, d.ObservedBy, err = readObserved(o.observed); err != nil {
			return err
		}
	}
	s, err := sheet.New(d, record.Beside(ctx, o.record, d))
	if err != nil {
		return fault.New(report.Failure{Code: "no-sheet", File: o.record, Message: "no sheet is made: " + err.Error(), Hint: "tell the settings to earshot check with --speeds, and keep the record with --record"}, err)
	}
	if o.listing {
		_, err := fmt.Fprintln(a.stdout, words.Printable(s.Listing()))
		return err
	}
	paths, err := a.clipsOf(ctx, o, d)
	if err != nil {
		return err
	}
	if err := files.RefuseClobber(o.out, append(paths, o.record, o.observed)); err != nil {
		return err
	}
	if paths != nil {
		if s.Strip, err = a.drawHeard(ctx, s, paths); err != nil {
			return err
		}
	}
	if err := files.Write(ctx, o.out, func(f *os.File) error { return writeSheet(f, s, o.out) }); err != nil {
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
	f, err := files.Open(path)
	if err != nil {
		return nil, "", fault.Unreadable(path, "what was seen cannot be read", err)
	}
	defer f.Close()
	seen, by, err := settings.ReadObserved(f)
	if err != nil {
		return nil, "", fault.Refused("bad-observations", path, err, "see earshot sheet --help for what it holds")
	}
	return seen, by, nil
}

// clipsOf finds the recordings of a record, beside it by name or as told, and compares their
// checksums with those of the record. It is nil if they are not there. The sheet then shows no
// firings, and a line says so.
func (a app) clipsOf(ctx context.Context, o sheetOptions, d report.Document) ([]string, error) {
	told := len(o.clips) > 0
	candidates := o.clips
	for _, c := range d.Clips {
		if !told {
			candidates = append(candidates, filepath.Join(filepath.Dir(o.record), filepath.Base(c.File)))
		}
	}
	sums := map[string]string{}
	for _, path := range candidates {
		sum, err := files.Checksum(ctx, path)
		if err == nil {
			sums[sum] = path
		} else if told {
			return nil, fault.File("unreadable", path, "the recording cannot be read", err, "check the name and the folder")
		}
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	var paths []string
	for _, c := range d.Clips {
		path, found := sums[c.SHA256]
		if !found && told {
			return nil, fault.New(report.Failure{Code: "other-clip", File: o.record, Message: "none of the recordings told is " + c.File + ", by its checksum", Hint: "name the recordings that the record was made from"}, sitting.ErrOtherClip)
		}
		if !found {
			fmt.Fprintf(a.stderr, "earshot: %s is not beside the record, so the sheet shows no firings; name it with --clip\n", words.Printable(c.File))
			return nil, nil
		}
		paths = append(paths, path)
	}
	return paths, nil
}

// drawHeard draws the firings that a sheet shows, nil where it shows none.
func (a app) drawHeard(ctx context.Context, s sheet.Sheet, paths []string) ([]byte, error) {
	again := sitting.HearAgain(ctx, s.Record, paths, a.stderr)
	defer again.Close()
	return s.DrawHeard(again.Look)
}
