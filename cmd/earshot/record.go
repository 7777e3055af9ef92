package main

import (
	"errors"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"earshot/report"
)

// oneRecord is for commands that take one record.
func oneRecord() cobra.PositionalArgs {
	return one("record", "name a file that earshot check --record wrote", "drawn")
}

// readRecord reads a record from a regular file.
func readRecord(path string) (report.Document, error) {
	f, err := openRegular(path)
	if err != nil {
		return report.Document{}, unreadable(path, "the record cannot be read", err)
	}
	defer f.Close()
	d, err := report.Read(f)
	if err != nil {
		return report.Document{}, refused(recordCode(err), path, err, recordHint(err))
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

// onRecordBeside reads the records of the same serial number in the folder of a record,
// itself included; none where it has none.
func onRecordBeside(path string, d report.Document) (all []report.Document) {
	if d.Lens.Serial == "" {
		return nil
	}
	beside, err := filepath.Glob(filepath.Join(escapeGlob(filepath.Dir(path)), "*.json"))
	if err != nil {
		return nil
	}
	for _, name := range beside {
		if other, err := readRecord(name); err == nil && sameLens(other.Lens, d.Lens) {
			all = append(all, other)
		}
	}
	return all
}

// sameLens tells whether two records are of one lens, by its name and serial number.
func sameLens(a, b report.Lens) bool { return a.Name == b.Name && a.Serial == b.Serial }

// escapeGlob makes a folder's name one that a pattern takes as it is.
func escapeGlob(dir string) string {
	return strings.NewReplacer(`*`, `[*]`, `?`, `[?]`, `[`, `[[]`).Replace(dir)
}
