package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"earshot/cmd/internal/files"
	"earshot/cmd/internal/folder"
	"earshot/dsp/synth"
	"earshot/dsp/wavfile"
	"earshot/shutter/judge"
)

// drawerOf makes a drawer of so many clips of one demo lens, each its own bytes.
func drawerOf(t *testing.T, lenses int) string {
	t.Helper()
	dir := t.TempDir()
	one := synth.Demo(demoSeed)[0].Recording
	one.Take.Settings = one.Take.Settings[4:]
	for i := range lenses {
		one.Seed = uint64(i)
		c, err := one.Clip()
		if err != nil {
			t.Fatal(err)
		}
		if err := files.Write(t.Context(), filepath.Join(dir, fmt.Sprintf("lens %d.wav", i+1)), func(f *os.File) error { return wavfile.Copy(f, c) }); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func options(dir string) drawerOptions {
	return drawerOptions{dir: dir, policy: judge.Standard(), now: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), verbose: true}
}

// contents are the files of a folder with their bytes.
func contents(t *testing.T, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	list, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range list {
		b, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		files[e.Name()] = string(b)
	}
	return files
}

// stopper cancels the work at the first line that is written.
type stopper struct {
	bytes.Buffer
	stop context.CancelFunc
}

func (s *stopper) Write(b []byte) (int, error) {
	s.stop()
	return s.Buffer.Write(b)
}

func TestAnInterruptedDrawerKeepsWhatIsDoneAndTheNextRunEndsAsAnUndisturbedOne(t *testing.T) {
	const lenses = 6
	dir := drawerOf(t, lenses)
	out := filepath.Join(dir, folder.ReportFolder)
	a := app{strings.NewReader(""), io.Discard, io.Discard}
	if err := a.drawer(context.Background(), options(dir)); err != nil {
		t.Fatal(err)
	}
	undisturbed := contents(t, out)
	if len(undisturbed) != 2*lenses+2 {
		t.Fatalf("%d files for %d lenses", len(undisturbed), lenses)
	}
	if err := os.RemoveAll(out); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	said := &stopper{stop: cancel}
	a.stderr = said
	if code := a.conclude(a.drawer(ctx, options(dir)), false); code != exitInterrupted {
		t.Errorf("exit code %d, want %d", code, exitInterrupted)
	}
	kept := contents(t, out)
	for name, b := range kept {
		if b != undisturbed[name] {
			t.Errorf("%s was left other than an undisturbed run writes it", name)
		}
	}
	if len(kept) == 0 || kept["index.html"] != "" || !strings.Contains(said.String(), "of 6 lenses are done and kept in ") {
		t.Errorf("kept %d files; said %s", len(kept), said.String())
	}
	a.stderr = io.Discard
	if err := a.drawer(context.Background(), options(dir)); err != nil {
		t.Fatal(err)
	}
	for name, b := range contents(t, out) {
		if b != undisturbed[name] {
			t.Errorf("%s is other than after an undisturbed run", name)
		}
	}
}
