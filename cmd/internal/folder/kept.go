package folder

import (
	"context"
	"os"
	"path/filepath"
	"reflect"
	"slices"

	"earshot/cmd/internal/files"
	"earshot/cmd/internal/record"
	"earshot/cmd/internal/sitting"
	"earshot/report"
	"earshot/shutter/judge"
)

// kept is the record that an earlier run made of the lens. It is kept if this program would make
// the same one from the same clips and settings, and if the lens's other files are there.
func (w *Work) kept(ctx context.Context, l foundLens, s sitting.Sitting) (report.Document, bool) {
	for _, f := range l.files() {
		if info, err := os.Lstat(filepath.Join(w.Folder(), f.Name)); err != nil || !info.Mode().IsRegular() {
			return report.Document{}, false
		}
	}
	d, err := record.Read(filepath.Join(w.Folder(), l.stem+".json"))
	return d, err == nil && wouldMake(s, d) && sameClips(ctx, d, s.Clips)
}

// wouldMake tells whether a record was made by this program with the same settings.
func wouldMake(o sitting.Sitting, d report.Document) bool {
	now := report.New(judge.Check{Policy: o.Policy}, report.Facts{Version: o.Version, Lens: o.Lens, Told: o.Steps, Observed: o.Seen, ObservedBy: o.SeenBy})
	return d.Tool == now.Tool && reflect.DeepEqual(d.Lens, now.Lens) && d.Told == now.Told && d.Policy == now.Policy &&
		slices.Equal(d.Observed, now.Observed) && d.ObservedBy == now.ObservedBy
}

// sameClips tells whether the clips hold the bytes that a record was made from.
func sameClips(ctx context.Context, d report.Document, clips []string) bool {
	if len(d.Clips) != len(clips) {
		return false
	}
	for i, path := range clips {
		sum, err := files.Checksum(ctx, path)
		if err != nil || sum != d.Clips[i].SHA256 || filepath.Base(path) != d.Clips[i].File {
			return false
		}
	}
	return true
}
