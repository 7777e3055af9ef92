package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"

	"earshot/dsp/clip"
	"earshot/dsp/synth"
	"earshot/dsp/wavfile"
)

var needFFmpeg = flag.Bool("need-ffmpeg", false, "fail, rather than skip, where there is no ffmpeg to compare with")

// binFolder is where the decoder is built when the first test needs it.
var binFolder string

func TestMain(m *testing.M) {
	flag.Parse()
	dir, err := os.MkdirTemp("", "earshot-decode-")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	binFolder = dir
	os.Setenv("PATH", dir+string(os.PathListSeparator)+os.Getenv("PATH"))
	code := m.Run()
	os.RemoveAll(dir)
	os.Exit(code)
}

// build builds the decoder where package clip finds it.
var build = sync.OnceValue(func() error {
	out, err := exec.Command("go", "build", "-o", binFolder+string(filepath.Separator), ".").CombinedOutput()
	if err != nil {
		return fmt.Errorf("%w: %s", err, out)
	}
	return nil
})

func withDecoder(t *testing.T) {
	t.Helper()
	if err := build(); err != nil {
		t.Fatal(err)
	}
}

// needing skips a test, or fails it with -need-ffmpeg, where there is no ffmpeg to
// compare the decoder with.
func needing(t *testing.T) {
	t.Helper()
	withDecoder(t)
	if _, err := exec.LookPath("ffmpeg"); err == nil {
		return
	}
	if *needFFmpeg {
		t.Fatal("there is no ffmpeg: install Debian's package")
	}
	t.Skip("there is no ffmpeg: install Debian's package to run this")
}

// ffmpeg runs that of the machine.
func ffmpeg(t *testing.T, args ...string) {
	t.Helper()
	out, err := exec.Command("ffmpeg", append([]string{"-nostdin", "-v", "error", "-y"}, args...)...).CombinedOutput()
	if err != nil {
		t.Fatalf("ffmpeg %v: %v\n%s", args, err, out)
	}
}

// recording writes a lens of the demo, fired nine times within 14 s, and returns its path.
func recording(t *testing.T) string {
	t.Helper()
	r := synth.Demo(1)[0].Recording
	r.Take.Settings = r.Take.Settings[2:5]
	sound, err := r.Clip()
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "lens.wav")
	f, err := os.Create(path)
	if err == nil {
		err = errors.Join(wavfile.Copy(f, sound), f.Close())
	}
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// save writes a file of the test.
func save(t *testing.T, name string, b []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, b, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func load(t *testing.T, path string) []byte {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// refused is the refusal that opening a file ends with, nil where it opens.
func refused(t *testing.T, path string) *clip.Error {
	t.Helper()
	c, err := clip.OpenContext(t.Context(), path, os.Stderr)
	if err == nil {
		c.Close()
		return nil
	}
	var e *clip.Error
	if !errors.As(err, &e) {
		t.Fatalf("%s: %v is no *clip.Error", path, err)
	}
	return e
}
