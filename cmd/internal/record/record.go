// Package record reads records from files, and says of those that can't be used why.
package record

import (
	"context"
	"errors"
	"path/filepath"

	"earshot/cmd/internal/fault"
	"earshot/cmd/internal/files"
	"earshot/report"
)

// Read reads a record from a regular file.
func Read(path string) (report.Document, error) {
	f, err := files.Open(path)
	if err != nil {
		return report.Document{}, fault.Unreadable(path, "the record cannot be read", err)
	}
	defer f.Close()
	d, err := report.Read(f)
	if err != nil {
		return report.Document{}, fault.Refused(codeOf(err), path, err, hintOf(err))
	}
	return d, nil
}

func codeOf(err error) string {
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

func hintOf(err error) string {
	switch {
	case errors.Is(err, report.ErrOtherSchema):
		return "use the version of earshot that wrote it, or a newer one"
	case errors.Is(err, report.ErrNotRecord):
		return "name a file that earshot check --record wrote"
	}
	return "check the clips again with earshot check --record"
}

// Beside reads the records of the same serial number in the folder of a record,
// itself included; none where it has none, or once ctx is done.
func Beside(ctx context.Context, path string, d report.Document) (all []report.Document) {
	if d.Lens.Serial == "" {
		return nil
	}
	beside, err := filepath.Glob(filepath.Join(files.EscapeGlob(filepath.Dir(path)), "*.json"))
	if err != nil {
		return nil
	}
	for _, name := range beside {
		if ctx.Err() != nil {
			return nil
		}
		if other, err := Read(name); err == nil && SameLens(other.Lens, d.Lens) {
			all = append(all, other)
		}
	}
	return all
}

// SameLens tells whether two records are of one lens, by its name and serial number.
func SameLens(a, b report.Lens) bool { return a.Name == b.Name && a.Serial == b.Serial }
