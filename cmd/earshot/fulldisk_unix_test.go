//go:build unix

package main

import (
	"bytes"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// mounted is a small file system of its own, where one may be had.
func mounted(t *testing.T, options string) string {
	t.Helper()
	dir := t.TempDir()
	if out, err := exec.Command("mount", "-t", "tmpfs", "-o", options, "none", dir).CombinedOutput(); err != nil {
		t.Skipf("no file system of its own here: %s", out)
	}
	t.Cleanup(func() { exec.Command("umount", dir).Run() })
	return dir
}

// outputs are the ways in which a file is written, into a folder.
func outputs(clip, record, dir string) map[string][]string {
	at := func(name string) string { return filepath.Join(dir, name) }
	check := []string{"check", clip, "--speeds", firedSpeeds}
	return map[string][]string{
		"a record":             append(check, "--record", at("x.json")),
		"a chart":              append(check, "--chart", at("x.png")),
		"a chart as PDF":       append(check, "--chart", at("x.pdf")),
		"a chart as SVG":       append(check, "--chart", at("x.svg")),
		"firings":              append(check, "--firings", at("x.png")),
		"labels":               append(check, "--labels", at("x.txt")),
		"a spectrum":           {"sound", clip, "--chart", at("x.png")},
		"a record's chart":     {"chart", record, "--out", at("x.png")},
		"a sheet":              {"sheet", record, "--out", at("x.html")},
		"a sheet as PDF":       {"sheet", record, "--out", at("x.pdf")},
		"a comparison's chart": {"compare", record, record, "--chart", at("x.png")},
		"the demo":             {"demo", dir},
	}
}

// heldOff runs every way of writing a file where none can be written, and holds it to one
// line that says so, exit code 1, and nothing left behind.
func heldOff(t *testing.T, dir, why string) {
	t.Helper()
	apart := t.TempDir()
	clip, record := filepath.Join(apart, "clip.wav"), filepath.Join(apart, "record.json")
	fired(t, clip)
	if code, said := program(t, io.Discard, "check", clip, "--speeds", firedSpeeds, "--record", record); code != exitDone {
		t.Fatal(said)
	}
	before, _ := os.ReadDir(dir)
	for name, args := range outputs(clip, record, dir) {
		code, said := program(t, io.Discard, args...)
		if code != exitFailed || strings.Count(said, "\n") != 1 || !strings.Contains(said, "cannot be written: "+why+"; see that its folder is there, may be written to and has room") {
			t.Errorf("%s: exit code %d: %s", name, code, said)
		}
		if after, _ := os.ReadDir(dir); len(after) != len(before) {
			t.Errorf("%s left %v", name, after)
		}
	}
}

func TestAFullDiskIsSaidAndLeavesNothingHalfWritten(t *testing.T) {
	dir := mounted(t, "size=64k")
	ballast := bytes.Repeat([]byte("x"), 64<<10)
	if err := os.WriteFile(filepath.Join(dir, "ballast"), ballast, 0o600); err != nil && !errors.Is(err, syscall.ENOSPC) {
		t.Fatal(err)
	}
	heldOff(t, dir, "no space left on device")
}

func TestAFolderThatCanOnlyBeReadIsSaid(t *testing.T) {
	heldOff(t, mounted(t, "ro"), "read-only file system")
}

// A drawer on a full disk or one that can only be read fails in a line, and what it could
// not write is not there.
func TestADrawerOnAFullDiskLeavesNothingHalfWritten(t *testing.T) {
	for why, prepare := range map[string]func(dir string) error{
		"no space left on device": func(dir string) error {
			f, err := os.Create(filepath.Join(dir, "ballast"))
			for err == nil {
				_, err = f.Write(make([]byte, 4096))
			}
			return f.Close()
		},
		"read-only file system": func(dir string) error { return exec.Command("mount", "-o", "remount,ro", dir).Run() },
	} {
		dir := mounted(t, "size=8m")
		fired(t, filepath.Join(dir, "corvane.wav"))
		if err := prepare(dir); err != nil {
			t.Fatal(err)
		}
		code, said := program(t, io.Discard, "drawer", dir)
		left, _ := filepath.Glob(filepath.Join(dir, "report", "*"))
		if hidden, _ := filepath.Glob(filepath.Join(dir, "report", ".*")); code != exitFailed || !strings.Contains(said, why) || len(left)+len(hidden) > 0 {
			t.Errorf("%s: exit code %d: %s; left %v %v", why, code, said, left, hidden)
		}
	}
}

// What is printed onto a full disk is not printed: the exit code says so.
func TestAnAnswerThatCannotBeWrittenFails(t *testing.T) {
	dir := t.TempDir()
	clip, record := filepath.Join(dir, "clip.wav"), filepath.Join(dir, "record.json")
	fired(t, clip)
	program(t, io.Discard, "check", clip, "--speeds", firedSpeeds, "--record", record)
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip(err)
	}
	defer full.Close()
	for _, args := range [][]string{
		{"check", clip}, {"check", clip, "--json"}, {"check", clip, "--csv"}, {"check", clip, "--explain", "1"}, {"sound", clip}, {"sound", clip, "--json"},
		{"compare", record, record}, {"compare", record, record, "--json"}, {"sheet", record, "--listing"}, {"sheet", record}, {"chart", record},
		{"speeds"}, {"speeds", "--json"}, {"drawer", dir}, {"drawer", dir, "--json"}, {"demo", filepath.Join(dir, "demo"), "corvane-105.wav"}, {"--help"}, {"--version"},
	} {
		if code, said := program(t, full, args...); code != exitFailed || !strings.Contains(said, "no space left on device") {
			t.Errorf("%q: exit code %d: %s", args, code, said)
		}
	}
}

// Standard output that is closed takes no answer; where a program asked for one, in JSON,
// that is said. What throws it away knows what it does.
func TestAnAnswerForAProgramIsNotLostOnAClosedOutput(t *testing.T) {
	dir := t.TempDir()
	clip := filepath.Join(dir, "clip.wav")
	if err := os.WriteFile(clip, silence(), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		command string
		code    int
	}{
		{`earshot check "$1" --json >&-`, exitFailed},
		{`earshot speeds --json >&-`, exitFailed},
		{`earshot check "$1" --json >/dev/null`, exitDone},
		{`earshot check "$1" --record "$1.json" 1<>/dev/null`, exitDone},
	} {
		said, err := exec.Command("sh", "-c", c.command, "sh", clip).CombinedOutput()
		var exit *exec.ExitError
		code := 0
		if errors.As(err, &exit) {
			code = exit.ExitCode()
		}
		if lines := strings.Count(string(said), "\n"); code != c.code || code == exitFailed && (lines != 1 || !strings.Contains(string(said), "standard output is closed")) {
			t.Errorf("%s: exit code %d, want %d: %s", c.command, code, c.code, said)
		}
	}
}
