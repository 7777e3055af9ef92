//go:build unix

package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"earshot/dsp/synth"
	"earshot/dsp/wavfile"
	"earshot/report"
)

// fired writes a clip of eight firings at 1/15 and 1/30 s, as told by firedSpeeds.
func fired(t *testing.T, path string) {
	t.Helper()
	r := synth.Demo(demoSeed)[0].Recording
	r.Take.Settings = r.Take.Settings[4:]
	c, err := r.Clip()
	if err == nil {
		err = writeFile(path, func(f *os.File) error { return wavfile.Copy(f, c) })
	}
	if err != nil {
		t.Fatal(err)
	}
}

const firedSpeeds = "1/15x3 1/30x5"

// program runs the program as a process of its own, for ten seconds of its own time at
// most and a minute by the clock.
func program(t *testing.T, stdout io.Writer, args ...string) (code int, said string) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	var errs bytes.Buffer
	cmd := exec.CommandContext(ctx, "sh", append([]string{"-c", `ulimit -t 10; exec earshot "$@"`, "sh"}, args...)...)
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
		return bytes.Contains(b, []byte("data:image/png")) || !strings.Contains(said, "does not lie beside the record")
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

// hostileName is harmful to a terminal, a spreadsheet and a page that do not see to it.
const hostileName = "=1+1\x1b[31m\u202e\u009b2J<script>alert(1)<script>\"'`&\n"

func TestLabelsOfAStrangerAreOnlyTextEverywhere(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	clip := at(hostileName + ".wav")
	fired(t, clip)
	quoted := `"=1+1\u001b[31m\u202e\u009b2J<script>alert(1)</script>"`
	policy := fmt.Sprintf("name = %s\nhouse = %[1]s\n", quoted)
	seen := fmt.Sprintf("by = %s\nglass = %[1]s\n", quoted)
	if err := errors.Join(os.WriteFile(at("p.toml"), []byte(policy), 0o600), os.WriteFile(at("seen.toml"), []byte(seen), 0o600)); err != nil {
		t.Fatal(err)
	}
	told := []string{"--speeds", firedSpeeds, "--lens", hostileName, "--serial", hostileName, "--note", hostileName, "--policy", at("p.toml")}
	var out bytes.Buffer
	for _, args := range [][]string{
		append([]string{"check", clip, "--record", at("r.json"), "--chart", at("c.svg"), "--firings", at("f.svg"), "--labels", at("l.txt")}, told...),
		append([]string{"check", clip, "--csv"}, told...), append([]string{"check", clip, "--json"}, told...), append([]string{"check", clip, "--explain", "1"}, told...),
		{"sound", clip}, {"sound", clip, "--json", "--chart", at("s.svg")},
		{"sheet", at("r.json"), "--out", at("s.html"), "--observed", at("seen.toml")}, {"sheet", at("r.json"), "--listing"},
		{"compare", at("r.json"), at("r.json"), "--chart", at("v.svg")}, {"compare", at("r.json"), at("r.json"), "--json"},
		{"drawer", dir, "--policy", at("p.toml")}, {"drawer", dir, "--policy", at("p.toml"), "--json"},
	} {
		code, said := program(t, &out, args...)
		if code != exitDone {
			t.Errorf("%q: exit code %d: %s", args[0], code, said)
		}
		out.WriteString(said)
	}
	texts := map[string]string{"what is printed": out.String()}
	for _, pattern := range []string{"*.svg", "*.html", "r.json", "l.txt", "report/*.html", "report/*.csv", "report/*.json"} {
		files, _ := filepath.Glob(filepath.Join(dir, filepath.FromSlash(pattern)))
		if len(files) == 0 {
			t.Errorf("no %s was written", pattern)
		}
		for _, f := range files {
			b, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			texts[strings.TrimPrefix(f, dir)] = string(b)
		}
	}
	for name, text := range texts {
		if plain := strings.NewReplacer("\n", "", "\t", "", "\u00a0", "", "\u202f", "", "\u2009", "").Replace(text); report.Printable(plain) != plain {
			t.Errorf("%s holds what is not printable", name)
		}
		page := strings.HasSuffix(name, ".svg") || strings.HasSuffix(name, ".html")
		if page && (strings.Contains(text, "<script>alert") || strings.Contains(text, "\"'`")) {
			t.Errorf("%s takes a label for a part of the page", name)
		}
		for line := range strings.Lines(text) {
			if strings.HasSuffix(name, ".csv") && (strings.HasPrefix(line, "=") || strings.Contains(line, ",=") || strings.Contains(line, `"=`)) {
				t.Errorf("%s holds a formula: %s", name, line)
			}
		}
	}
}

// A kill at any moment leaves every file under its name whole, as an undisturbed run
// writes it, and no lens that is done is checked anew.
func TestADrawerKilledAtAnyMomentLosesNothing(t *testing.T) {
	dir := drawerOf(t, 4)
	out := filepath.Join(dir, reportFolder)
	args := []string{"drawer", dir, "--now", "2026-11-25", "--verbose"}
	start := time.Now()
	if code, said := program(t, io.Discard, args...); code != exitDone {
		t.Fatal(said)
	}
	took, whole := time.Since(start), contents(t, out)
	kills, kept := 0, map[string]string{}
	clear := func() {
		if err := os.RemoveAll(out); err != nil {
			t.Fatal(err)
		}
		kept = map[string]string{}
	}
	clear()
	for i := range 24 {
		cmd := exec.Command("earshot", args...)
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(took * time.Duration(i%12) / 12)
		cmd.Process.Kill()
		if cmd.Wait() != nil {
			kills++
		}
		if _, err := os.Stat(out); err != nil {
			continue // killed before it began
		}
		now := contents(t, out)
		for name, b := range now {
			if !strings.HasPrefix(name, ".earshot-") && b != whole[name] {
				t.Errorf("kill %d: %s is other than an undisturbed run writes it", i, name)
			}
		}
		for name := range kept {
			if now[name] == "" {
				t.Errorf("kill %d: %s is gone", i, name)
			}
		}
		if kept = now; now["index.html"] != "" {
			clear()
		}
		for name := range kept {
			if strings.HasPrefix(name, ".") {
				delete(kept, name)
			}
		}
	}
	code, said := program(t, io.Discard, args...)
	if code != exitDone || kills < 4 {
		t.Errorf("exit code %d after %d kills: %s", code, kills, said)
	}
	for name := range kept {
		lens, record := strings.CutSuffix(name, ".json")
		if record && !strings.Contains(said, strings.ReplaceAll(lens, "-", " ")+": ") {
			t.Errorf("nothing is said of %s: %s", lens, said)
		}
		if record && !strings.Contains(said, "(unchanged)") {
			t.Errorf("%s was done and is checked anew: %s", lens, said)
		}
	}
	last := contents(t, out)
	for name := range whole {
		if last[name] != whole[name] {
			t.Errorf("in the end %s is other than after an undisturbed run", name)
		}
	}
	if len(last) != len(whole) {
		t.Errorf("in the end there are %d files, want %d", len(last), len(whole))
	}
}
