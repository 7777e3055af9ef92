package folder

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"earshot/cmd/internal/files"
	"earshot/dsp/synth"
	"earshot/dsp/wavfile"
	"earshot/report/drawer"
	"earshot/shutter/judge"
)

// drawerOf makes a drawer of so many clips of one demo lens, each its own bytes.
func drawerOf(t *testing.T, lenses int) string {
	t.Helper()
	dir := t.TempDir()
	one := synth.Demo(1)[0].Recording
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

// aClip is a recording.
func aClip(t *testing.T) []byte {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(drawerOf(t, 1), "lens 1.wav"))
	if err != nil {
		t.Fatal(err)
	}
	return b
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

// unwatched looks away.
type unwatched struct{}

func (unwatched) Begin(string) {}
func (unwatched) Done(string)  {}

// checkedUntil checks a drawer until ctx is done.
func checkedUntil(ctx context.Context, dir string, watch Watcher) (drawer.Summary, error) {
	found, err := Find(ctx, dir)
	if err != nil {
		return drawer.Summary{}, err
	}
	work, err := found.Begin(Settings{Policy: judge.Standard(), Now: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), Version: "v1", Notes: io.Discard})
	if err != nil {
		return drawer.Summary{}, err
	}
	defer work.End()
	work.Check(ctx, watch)
	return work.Write(ctx)
}

func checked(dir string) error {
	_, err := checkedUntil(context.Background(), dir, unwatched{})
	return err
}

// stopper stops the work when the first lens is done.
type stopper struct {
	unwatched
	stop context.CancelFunc
}

func (s stopper) Done(string) { s.stop() }

func TestADrawerIsCheckedWithoutACommand(t *testing.T) {
	dir := drawerOf(t, 3)
	ctx, stop := context.WithCancel(t.Context())
	if _, err := checkedUntil(ctx, dir, stopper{stop: stop}); err == nil {
		t.Error("a drawer that was stopped is whole")
	}
	s, err := checkedUntil(t.Context(), dir, unwatched{})
	if err != nil || len(s.Entries) != 3 {
		t.Fatalf("%d lenses, %v", len(s.Entries), err)
	}
	first := contents(t, filepath.Join(dir, ReportFolder))
	for _, e := range s.Entries {
		if e.Record == nil || first[e.File("record")] == "" || first[e.File("chart")] == "" {
			t.Errorf("%s: %v, files %v", e.Lens.Title(), e.Failures(), e.Files)
		}
	}
	if first["index.html"] == "" || first["summary.csv"] == "" {
		t.Error("no page or no summary")
	}
	written := time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)
	for name := range first {
		if err := os.Chtimes(filepath.Join(dir, ReportFolder, name), written, written); err != nil {
			t.Fatal(err)
		}
	}
	if err := checked(dir); err != nil {
		t.Fatal(err)
	}
	for name := range first {
		if info, err := os.Stat(filepath.Join(dir, ReportFolder, name)); err != nil || !info.ModTime().Equal(written) {
			t.Errorf("%s was written again, though nothing has changed: %v", name, err)
		}
	}
}

func TestWhatAKilledRunLeftIsClearedAway(t *testing.T) {
	dir := drawerOf(t, 1)
	out := filepath.Join(dir, ReportFolder)
	if err := os.MkdirAll(out, 0o755); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{".earshot-123-0.tmp", "notes.txt", "lens-1.png"} { // the last without its record
		if err := os.WriteFile(filepath.Join(out, name), []byte("half"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := checked(dir); err != nil {
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
	found, err := Find(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	work, err := found.Begin(Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if err := checked(dir); err == nil || !strings.Contains(err.Error(), "another earshot is at work on this drawer") {
		t.Errorf("while another is at it: %v", err)
	}
	work.End()
	if err := checked(dir); err != nil {
		t.Errorf("after the first is done: %v", err)
	}
}

func TestNothingOutsideOfADrawerIsReadOrWritten(t *testing.T) {
	outside := t.TempDir()
	if err := os.WriteFile(filepath.Join(outside, "clip.wav"), aClip(t), 0o644); err != nil {
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
		if err := os.WriteFile(filepath.Join(dir, "clip.wav"), aClip(t), 0o644); err != nil {
			t.Fatal(err)
		}
		if err := c.make(dir); err != nil {
			t.Skipf("no links here: %v", err)
		}
		if err := checked(dir); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if left := contents(t, outside); len(left) != 1 {
		t.Errorf("outside there are now %d files", len(left))
	}
}
