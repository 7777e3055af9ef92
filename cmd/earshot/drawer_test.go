package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"earshot/dsp/synth"
	"earshot/dsp/wavfile"
	"earshot/report/drawer"
	"earshot/shutter"
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
		if err := writeFile(filepath.Join(dir, fmt.Sprintf("lens %d.wav", i+1)), func(f *os.File) error { return wavfile.Copy(f, c) }); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func options(dir string) drawerOptions {
	return drawerOptions{dir: dir, policy: shutter.Standard, now: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), verbose: true}
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
	dir := drawerOf(t, 8)
	out := filepath.Join(dir, reportFolder)
	a := app{strings.NewReader(""), io.Discard, io.Discard}
	if err := a.drawer(context.Background(), options(dir)); err != nil {
		t.Fatal(err)
	}
	undisturbed := contents(t, out)
	if len(undisturbed) != 2*8+2 {
		t.Fatalf("%d files for 8 lenses", len(undisturbed))
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
	if len(kept) == 0 || kept["index.html"] != "" || !strings.Contains(said.String(), "of 8 lenses are done and kept in ") {
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

func TestWhatAKilledRunLeftIsClearedAway(t *testing.T) {
	dir := drawerOf(t, 1)
	out := filepath.Join(dir, reportFolder)
	if err := os.MkdirAll(out, 0o755); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{".earshot-123-0.tmp", "notes.txt", "lens-1.png"} { // the last without its record
		if err := os.WriteFile(filepath.Join(out, name), []byte("half"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := (app{strings.NewReader(""), io.Discard, io.Discard}).drawer(context.Background(), options(dir)); err != nil {
		t.Fatal(err)
	}
	left := contents(t, out)
	if _, there := left[".earshot-123-0.tmp"]; there || left["notes.txt"] != "half" || !strings.HasPrefix(left["lens-1.png"], "\x89PNG") {
		t.Errorf("files left: %q", slices.Collect(func(yield func(string) bool) {
			for name := range left {
				yield(name)
			}
		}))
	}
}

func TestTwoRunsInOneDrawerDoNotMix(t *testing.T) {
	dir := drawerOf(t, 1)
	found, err := findDrawer(dir)
	if err != nil {
		t.Fatal(err)
	}
	work, err := found.begin(drawerSettings{})
	if err != nil {
		t.Fatal(err)
	}
	var errs bytes.Buffer
	a := app{strings.NewReader(""), io.Discard, &errs}
	if code := a.conclude(a.drawer(context.Background(), options(dir)), false); code != exitFailed || !strings.Contains(errs.String(), "another earshot is at work on this drawer; wait until it is done") {
		t.Errorf("exit code %d: %s", code, errs.String())
	}
	work.end()
	if code := a.conclude(a.drawer(context.Background(), options(dir)), false); code != exitDone {
		t.Errorf("after the first is done: exit code %d: %s", code, errs.String())
	}
}

func TestNothingOutsideOfADrawerIsReadOrWritten(t *testing.T) {
	outside := t.TempDir()
	if err := os.WriteFile(filepath.Join(outside, "clip.wav"), silence(), 0o644); err != nil {
		t.Fatal(err)
	}
	link := func(target, name string) func(string) error {
		return func(dir string) error { return os.Symlink(target, filepath.Join(dir, name)) }
	}
	list := func(clip string) func(string) error {
		return func(dir string) error {
			return os.WriteFile(filepath.Join(dir, "drawer.csv"), []byte("lens,clip\nCorvane,"+clip+"\n"), 0o644)
		}
	}
	both := func(one, two func(string) error) func(string) error {
		return func(dir string) error {
			if err := one(dir); err != nil {
				return err
			}
			return two(dir)
		}
	}
	for name, c := range map[string]struct {
		make func(dir string) error
		want string
	}{
		"a clip that is a link out":       {link(filepath.Join(outside, "clip.wav"), "a.wav"), "it leads out of the drawer"},
		"a clip that is a link to itself": {link("a.wav", "a.wav"), "it leads out of the drawer, or cannot be read"},
		"a clip that is a link nowhere":   {link("gone.wav", "a.wav"), "a link that leads nowhere"},
		"a listed link out":               {both(link(filepath.Join(outside, "clip.wav"), "x"), list("x")), "it leads out of the drawer"},
		"a listed folder that leads out":  {both(link(outside, "x"), list("x/clip.wav")), "it leads out of the drawer"},
		"a listed parent":                 {list("../clip.wav"), "leads out of the drawer: name the clip"},
		"a listed absolute path":          {list(filepath.Join(outside, "clip.wav")), "leads out of the drawer: name the clip"},
		"a listed drawer in itself":       {list("."), "leads out of the drawer: name the clip"},
		"a listed way round":              {list("x/../../clip.wav"), "leads out of the drawer: name the clip"},
		"a report that is a link out":     {both(link(outside, "report"), list("clip.wav")), "there is something else of that name"},
	} {
		dir := t.TempDir()
		if err := os.WriteFile(filepath.Join(dir, "clip.wav"), silence(), 0o644); err != nil {
			t.Fatal(err)
		}
		if err := c.make(dir); err != nil {
			t.Skipf("no links here: %v", err)
		}
		var errs bytes.Buffer
		a := app{strings.NewReader(""), io.Discard, &errs}
		if code := a.conclude(a.drawer(context.Background(), options(dir)), false); code != exitFailed || !strings.Contains(errs.String(), c.want) {
			t.Errorf("%s: exit code %d: %s", name, code, errs.String())
		}
	}
	if left := contents(t, outside); len(left) != 1 {
		t.Errorf("outside there are now %d files", len(left))
	}
}

func TestClipsAreInTheOrderAPersonCounts(t *testing.T) {
	want := []string{"1.wav", "2.wav", "2a.wav", "10.wav", "a01.wav", "a1.wav", "a2b3.wav", "a2b12.wav", "a10.wav", "b.wav"}
	got := slices.Clone(want)
	slices.Reverse(got)
	slices.SortFunc(got, asCounted)
	if !slices.Equal(got, want) {
		t.Errorf("got %q", got)
	}
}

func TestEveryLensHasFilesOfItsOwnThatAnySystemCanName(t *testing.T) {
	names := []string{"Corvane 105 mm f/3.5", "corvane 105 mm F 3.5", "CON", "../../etc", "", "…", "index", strings.Repeat("ä", 100), "快门", "a\x00b\xffc"}
	lenses := make([]foundLens, len(names))
	for i, name := range names {
		lenses[i].Lens = drawer.Lens{}
		lenses[i].Lens.Name = name
	}
	nameFiles(lenses)
	want := []string{"corvane-105-mm-f-3-5", "corvane-105-mm-f-3-5-2", "lens-con", "etc", "unnamed-lens", "lens", "index-2", strings.Repeat("ä", 40), "快门", "a-b-c"}
	for i, l := range lenses {
		if l.stem != want[i] {
			t.Errorf("%q: %q, want %q", names[i], l.stem, want[i])
		}
	}
}
