package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
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
func (l foundLens) kept(ctx context.Context, s sitting, dir string) (report.Document, bool) {
	for _, f := range l.files() {
		if info, err := os.Lstat(filepath.Join(dir, reportFolder, f.Name)); err != nil || !info.Mode().IsRegular() {
			return report.Document{}, false
		}
	}
	d, err := readRecord(filepath.Join(dir, reportFolder, l.stem+".json"))
	return d, err == nil && s.wouldMake(d) && sameClips(ctx, d, s.clips)
}

// wouldMake tells whether a record was made by this program with the same settings.
func (o sitting) wouldMake(d report.Document) bool {
	now := report.New(shutter.Check{Policy: o.policy}, report.Facts{Version: version, Lens: o.lens, Told: o.steps, Observed: o.seen, ObservedBy: o.seenBy})
	return d.Tool == now.Tool && reflect.DeepEqual(d.Lens, now.Lens) && d.Told == now.Told && d.Policy == now.Policy &&
		slices.Equal(d.Observed, now.Observed) && d.ObservedBy == now.ObservedBy
}

// sameClips tells whether the clips hold the bytes that a record was made from.
func sameClips(ctx context.Context, d report.Document, clips []string) bool {
	if len(d.Clips) != len(clips) {
		return false
	}
	for i, path := range clips {
		sum, err := checksum(ctx, path)
		if err != nil || sum != d.Clips[i].SHA256 || filepath.Base(path) != d.Clips[i].File {
			return false
		}
	}
	return true
}

func checksum(ctx context.Context, path string) (string, error) {
	f, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer f.Close()
	sum := sha256.New()
	if _, err := io.Copy(sum, untilDone{f, ctx}); err != nil {
		return "", err
	}
	return hex.EncodeToString(sum.Sum(nil)), nil
}

// untilDone is a reader that ends with the context's error once that is done.
type untilDone struct {
	io.Reader
	ctx context.Context
}

func (r untilDone) Read(b []byte) (int, error) {
	if err := r.ctx.Err(); err != nil {
		return 0, err
	}
	return r.Reader.Read(b)
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
	return writeFile(path, func(f *os.File) error {
		_, err := f.Write(b.Bytes())
		return err
	})
}
