package folder

import (
	"bytes"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"earshot/cmd/internal/files"
	"earshot/cmd/internal/record"
	"earshot/cmd/internal/sitting"
	"earshot/report"
	"earshot/report/drawer"
	"earshot/report/sheet"
)

// writeSheets writes the sheet of each lens that has a record of told speeds. It comes
// after all records are there, since a sheet lists those of its serial number.
func (w *Work) writeSheets(ctx context.Context, entries []drawer.Entry) error {
	wrong := make([]error, len(entries))
	sideBySide(ctx, len(entries), func(i int) {
		if entries[i].Record != nil {
			wrong[i] = w.writeSheet(ctx, w.lenses[i], &entries[i], onRecord(entries, w.lenses[i].Lens))
		}
	})
	return errors.Join(append(wrong, ctx.Err())...)
}

// writeSheet writes the sheet of a lens, unless the same one is there. If no sheet can be made, it
// removes that of an earlier run.
func (w *Work) writeSheet(ctx context.Context, l foundLens, e *drawer.Entry, all []report.Document) error {
	name := l.stem + ".html"
	path := filepath.Join(w.Folder(), name)
	s, err := sheet.New(*e.Record, all)
	if err != nil {
		if info, err := os.Lstat(path); err == nil && info.Mode().IsRegular() {
			return os.Remove(path)
		}
		return nil
	}
	e.Files = append([]drawer.File{{Kind: "sheet", Name: name}}, e.Files...)
	mark, err := madeFrom(s)
	if err != nil || endsWith(path, mark) {
		return err
	}
	again := sitting.HearAgain(ctx, s.Record, w.sitting(l).Clips, w.Notes)
	defer again.Close()
	if s.Strip, err = s.DrawHeard(again.Look); err != nil {
		if ctx.Err() != nil {
			return err
		}
		s.Strip = nil // the sheet says as much
	}
	return files.Write(ctx, path, func(f *os.File) error {
		return errors.Join(sheet.WriteHTML(f, s), files.WriteAll(f, mark))
	})
}

// madeFrom is a line for the end of a sheet. Sheets with the same text have the same line; the
// text holds the checksums of the clips, from which the pictures of the firings follow.
func madeFrom(s sheet.Sheet) ([]byte, error) {
	sum := sha256.New()
	if err := sheet.WriteHTML(sum, s); err != nil {
		return nil, err
	}
	return fmt.Appendf(nil, "<!-- made from %x -->\n", sum.Sum(nil)), nil
}

func endsWith(path string, mark []byte) bool {
	f, err := files.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	end := make([]byte, len(mark))
	if _, err := f.Seek(-int64(len(end)), io.SeekEnd); err != nil {
		return false
	}
	_, err = io.ReadFull(f, end)
	return err == nil && bytes.Equal(end, mark)
}

// onRecord are the records of a lens by its serial number, none where it has none.
func onRecord(entries []drawer.Entry, l drawer.Lens) (all []report.Document) {
	for _, e := range entries {
		if l.Serial != "" && e.Record != nil && record.SameLens(e.Lens.Lens, l.Lens) {
			all = append(all, *e.Record)
		}
	}
	return all
}
