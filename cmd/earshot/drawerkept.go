package main

import (
	"bytes"
	"context"
	"io"
	"os"
	"path/filepath"
	"reflect"
	"slices"

	"earshot/report"
	"earshot/shutter"
)

// kept is the record that an earlier run made of the lens, if the same program would
// make it again from the same clips and settings, and its other files are there.
func (w *drawerWork) kept(ctx context.Context, l foundLens, s sitting) (report.Document, bool) {
	for _, f := range l.files() {
		if info, err := os.Lstat(filepath.Join(w.folder(), f.Name)); err != nil || !info.Mode().IsRegular() {
			return report.Document{}, false
		}
	}
	d, err := readRecord(filepath.Join(w.folder(), l.stem+".json"))
	return d, err == nil && wouldMake(s, d) && sameClips(ctx, d, s.clips)
}

// wouldMake tells whether a record was made by this program with the same settings.
func wouldMake(o sitting, d report.Document) bool {
	now := report.New(shutter.Check{Policy: o.policy}, report.Facts{Version: o.version, Lens: o.lens, Told: o.steps, Observed: o.seen, ObservedBy: o.seenBy})
	return d.Tool == now.Tool && reflect.DeepEqual(d.Lens, now.Lens) && d.Told == now.Told && d.Policy == now.Policy &&
		slices.Equal(d.Observed, now.Observed) && d.ObservedBy == now.ObservedBy
}

// sameClips tells whether the clips hold the bytes that a record was made from.
func sameClips(ctx context.Context, d report.Document, clips []string) bool {
	if len(d.Clips) != len(clips) {
		return false
	}
	for i, path := range clips {
		if ctx.Err() != nil {
			return false
		}
		sum, err := checksum(path)
		if err != nil || sum != d.Clips[i].SHA256 || filepath.Base(path) != d.Clips[i].File {
			return false
		}
	}
	return true
}

// writeChanged writes a file unless it is there with the same bytes.
func writeChanged(path string, write func(io.Writer) error) error {
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return err
	}
	if info, err := os.Lstat(path); err == nil && info.Mode().IsRegular() && info.Size() == int64(b.Len()) {
		if old, err := os.ReadFile(path); err == nil && bytes.Equal(old, b.Bytes()) {
			return nil
		}
	}
	return writeBytes(path, b.Bytes())
}
