//go:build unix

package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"earshot/cmd/internal/files"
	"earshot/dsp/synth"
	"earshot/dsp/wavfile"
)

// fired writes a clip of eight firings at 1/15 and 1/30 s, as told by firedSpeeds.
func fired(t testing.TB, path string) {
	t.Helper()
	r := synth.Demo(demoSeed)[0].Recording
	r.Take.Settings = r.Take.Settings[4:]
	c, err := r.Clip()
	if err == nil {
		err = files.Write(t.Context(), path, func(f *os.File) error { return wavfile.Copy(f, c) })
	}
	if err != nil {
		t.Fatal(err)
	}
}

const firedSpeeds = "1/15x3 1/30x5"

// program runs the program as a process of its own, for a minute of the processor's time
// at most.
func program(t *testing.T, stdout io.Writer, args ...string) (code int, said string) {
	t.Helper()
	var errs bytes.Buffer
	cmd := exec.CommandContext(t.Context(), "sh", append([]string{"-c", `ulimit -t 60; exec earshot "$@"`, "sh"}, args...)...)
	cmd.Stdout, cmd.Stderr = stdout, &errs
	var exit *exec.ExitError
	if err := cmd.Run(); err != nil && !errors.As(err, &exit) || cmd.ProcessState.ExitCode() < 0 {
		t.Errorf("%q: %v", args, err)
	}
	return cmd.ProcessState.ExitCode(), errs.String()
}

// A pipe that no one writes to, a device without end, a socket or a folder in the place of
// any file that is read is refused at once, through a link too.
func TestWhatIsNoFileIsRefusedWhereverAFileIsRead(t *testing.T) {
	dir, err := os.MkdirTemp("", "earshot") // short: the name of a socket has a limit
	if err != nil {
		t.Fatal(err)
	}
	defer os.RemoveAll(dir)
	at := func(name string) string { return filepath.Join(dir, name) }
	fired(t, at("clip.wav"))
	if code, said := program(t, io.Discard, "check", at("clip.wav"), "--speeds", firedSpeeds, "--record", at("record.json")); code != exitDone {
		t.Fatal(said)
	}
	listener, err := net.Listen("unix", at("socket"))
	if err != nil {
		t.Fatal(err)
	}
	defer listener.Close()
	if err := errors.Join(syscall.Mkfifo(at("pipe"), 0o600), os.Symlink("pipe", at("link")), os.Symlink("/dev/zero", at("endless"))); err != nil {
		t.Fatal(err)
	}
	for _, bad := range []string{dir, at("pipe"), at("link"), at("socket"), at("endless"), "/dev/zero", "/dev/full", at("nothing")} {
		toml := at(filepath.Base(bad) + ".toml")
		os.Symlink(bad, toml)
		for _, args := range [][]string{
			{"check", bad}, {"sound", bad}, {"clock", bad, "--every", "1s"}, {"chart", bad}, {"sheet", bad, "--out", at("x.html")},
			{"compare", bad, at("record.json")}, {"compare", at("record.json"), bad},
			{"check", at("clip.wav"), "--policy", toml}, {"check", at("clip.wav"), "--use-labels", bad},
			{"sheet", at("record.json"), "--out", at("x.html"), "--observed", bad}, {"sheet", at("record.json"), "--out", at("x.html"), "--clip", bad},
			{"drawer", bad},
		} {
			if args[0] == "drawer" && bad == dir {
				continue
			}
			code, said := program(t, io.Discard, args...)
			if code != exitFailed || strings.Count(said, "\n") != 1 || !strings.HasPrefix(said, "earshot: ") {
				t.Errorf("%q: exit code %d: %s", args, code, said)
			}
		}
	}
}

// The sheet shows the firings of a clip that lies beside the record, under the name it had.
// A record from a stranger can't have it look elsewhere, nor take another file for it.
func TestARecordDoesNotLeadOutOfItsFolder(t *testing.T) {
	dir := t.TempDir()
	inside := filepath.Join(dir, "a", "b")
	clip, record, page := filepath.Join(dir, "clip.wav"), filepath.Join(inside, "record.json"), filepath.Join(inside, "x.html")
	if err := os.MkdirAll(inside, 0o755); err != nil {
		t.Fatal(err)
	}
	fired(t, clip)
	if code, said := program(t, io.Discard, "check", clip, "--speeds", firedSpeeds, "--record", record); code != exitDone {
		t.Fatal(said)
	}
	honest, err := os.ReadFile(record)
	if err != nil {
		t.Fatal(err)
	}
	shows := func(name string) bool {
		quoted, _ := json.Marshal(name)
		lie := bytes.Replace(honest, []byte(`"file": "clip.wav"`), append([]byte(`"file": `), quoted...), 1)
		if err := os.WriteFile(record, lie, 0o600); err != nil {
			t.Fatal(err)
		}
		code, said := program(t, io.Discard, "sheet", record, "--out", page)
		b, err := os.ReadFile(page)
		if code != exitDone || err != nil {
			t.Fatalf("%s: exit code %d: %s", name, code, said)
		}
		return bytes.Contains(b, []byte("data:image/png")) || !strings.Contains(said, "is not beside the record")
	}
	for _, name := range []string{"../../clip.wav", clip, `..\..\clip.wav`, "", ".", "..", "/", "../..", "\x00", strings.Repeat("x", 5000), "/dev/zero"} {
		if shows(name) {
			t.Errorf("%q is looked for outside", name)
		}
	}
	if err := os.WriteFile(filepath.Join(inside, "clip.wav"), silence(), 0o600); err != nil {
		t.Fatal(err)
	}
	if shows("clip.wav") {
		t.Error("another clip under the name is taken for it")
	}
	fired(t, filepath.Join(inside, "clip.wav"))
	if !shows("clip.wav") {
		t.Error("the clip itself is not found beside the record")
	}
}
