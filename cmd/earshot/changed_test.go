package main

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"earshot/cmd/internal/sitting"
	"earshot/dsp/clip"
	"earshot/shutter"
	"earshot/shutter/judge"
)

// A clip that vanishes, shrinks or becomes another between being heard and being drawn is
// not drawn: the picture would show other sound under the times that were heard.
func TestAClipThatIsNoLongerWhatWasHeardIsNotDrawn(t *testing.T) {
	dir := drawerOf(t, 2)
	path, other := filepath.Join(dir, "lens 1.wav"), filepath.Join(dir, "lens 2.wav")
	a := app{strings.NewReader(""), io.Discard, io.Discard}
	o := checkOptions{Sitting: sitting.Sitting{Clips: []string{path}, Kind: shutter.Leaf, Policy: judge.Standard()}, firings: filepath.Join(t.TempDir(), "x.png"), firingsFormat: "png"}
	all, d, _, err := o.ExamineHeard(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, code string
		happen     func() error
	}{
		{"it is another", "changed", func() error { return errors.Join(os.Remove(path), os.Link(other, path)) }},
		{"it is cut short", "changed", func() error { return errors.Join(os.Remove(path), os.WriteFile(path, silence()[:4000], 0o600)) }},
		{"it is empty", "empty", func() error { return os.Truncate(path, 0) }},
		{"it is gone", "missing-file", func() error { return os.Remove(path) }},
	} {
		if err := c.happen(); err != nil {
			t.Fatal(err)
		}
		err := a.drawFirings(t.Context(), o, sitting.PathsOf(all), d)
		if f := failureOf(err); err == nil || f.Code != c.code || f.File != path || f.Hint == "" {
			t.Errorf("%s: %+v, want the code %s", c.name, f, c.code)
		}
		if _, err := os.Stat(o.firings); err == nil {
			t.Errorf("%s: it is drawn", c.name)
		}
	}
}

// A recording that is still being copied while it is heard is none yet.
func TestAClipThatGrowsWhileItIsHeardIsRefused(t *testing.T) {
	path := filepath.Join(t.TempDir(), "clip.wav")
	if err := os.WriteFile(path, silence(), 0o600); err != nil {
		t.Fatal(err)
	}
	c, err := clip.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	if err := c.Unchanged(); err != nil {
		t.Errorf("before anything happened: %v", err)
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_APPEND, 0)
	if err == nil {
		_, err = f.Write(make([]byte, 100))
		err = errors.Join(err, f.Close())
	}
	if err != nil {
		t.Fatal(err)
	}
	var e *clip.Error
	if err := c.Unchanged(); !errors.As(err, &e) || e.Code != clip.Changed {
		t.Errorf("after it grew: %v", err)
	}
}
