package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"

	"earshot/report"
	"earshot/report/sheet"
	"earshot/report/words"
)

// clipsOf finds the recordings of a record, by name beside it or as told, and holds them
// to its checksums. It is nil where they are not at hand: then the sheet shows no firings,
// which is said.
func (a app) clipsOf(o sheetOptions, d report.Document) ([]string, error) {
	told := len(o.clips) > 0
	candidates := o.clips
	for _, c := range d.Clips {
		if !told {
			candidates = append(candidates, filepath.Join(filepath.Dir(o.record), filepath.Base(c.File)))
		}
	}
	sums := map[string]string{}
	for _, path := range candidates {
		sum, err := checksum(path)
		if err == nil {
			sums[sum] = path
		} else if told {
			return nil, fileFault("unreadable", path, "the recording cannot be read", err, "check the name and the folder")
		}
	}
	var paths []string
	for _, c := range d.Clips {
		path, found := sums[c.SHA256]
		if !found && told {
			return nil, newFault(report.Failure{Code: "other-clip", File: o.record, Message: "none of the recordings told is " + c.File + ", by its checksum", Hint: "name the recordings that the record was made from"}, errOtherClip)
		}
		if !found {
			fmt.Fprintf(a.stderr, "earshot: %s does not lie beside the record: the sheet shows no firings; name it with --clip\n", words.Printable(c.File))
			return nil, nil
		}
		paths = append(paths, path)
	}
	return paths, nil
}

// errOtherClip is for a recording that a record was not made from.
var errOtherClip = errors.New("another recording")

// drawHeard draws the firings that a sheet shows, nil where it shows none.
func (a app) drawHeard(ctx context.Context, s sheet.Sheet, paths []string) ([]byte, error) {
	again := hearAgain(ctx, s.Record, paths, a.stderr)
	defer again.close()
	return s.DrawHeard(again.look)
}
