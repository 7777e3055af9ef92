package main

import (
	"io"
	"os"
	"path/filepath"

	"earshot/report/drawer"
	"earshot/report/sheet"
)

// writeSheets writes the sheet of each lens that has a record of told speeds, and takes
// away one of an earlier run where there is none now. It comes after all records are
// there, since a sheet says how many there are of its serial number.
func writeSheets(out string, entries []drawer.Entry, lenses []foundLens) error {
	for i := range entries {
		e := &entries[i]
		if e.Record == nil {
			continue
		}
		name := lenses[i].stem + ".html"
		path := filepath.Join(out, name)
		s, err := sheet.New(*e.Record, onRecord(entries, e.Lens))
		if err != nil {
			if info, err := os.Lstat(path); err == nil && info.Mode().IsRegular() {
				os.Remove(path)
			}
			continue
		}
		if err := writeChanged(path, func(w io.Writer) error { return sheet.WriteHTML(w, s, nil) }); err != nil {
			return err
		}
		e.Files = append([]drawer.File{{Kind: "sheet", Name: name}}, e.Files...)
	}
	return nil
}

// onRecord counts the records of a lens by its serial number, 0 where it has none.
func onRecord(entries []drawer.Entry, l drawer.Lens) (n int) {
	for _, e := range entries {
		if l.Serial != "" && e.Record != nil && e.Lens.Serial == l.Serial && e.Lens.Name == l.Name {
			n++
		}
	}
	return n
}
