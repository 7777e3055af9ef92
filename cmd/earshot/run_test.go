package main

import (
	"bytes"
	"context"
	"encoding/binary"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"earshot/cmd/internal/sitting"
)

// silence is a WAV of one second of it.
func silence() []byte {
	const bytesOfSound = 16000
	b := []byte("RIFF\x00\x00\x00\x00WAVEfmt \x10\x00\x00\x00\x01\x00\x01\x00\x40\x1f\x00\x00\x80\x3e\x00\x00\x02\x00\x10\x00data")
	b = binary.LittleEndian.AppendUint32(b, bytesOfSound)
	b = append(b, make([]byte, bytesOfSound)...)
	binary.LittleEndian.PutUint32(b[4:], uint32(len(b)-8))
	return b
}

func TestExitCodes(t *testing.T) {
	silent := filepath.Join(t.TempDir(), "silent.wav")
	if err := os.WriteFile(silent, silence(), 0o644); err != nil {
		t.Fatal(err)
	}
	cases := []struct {
		name string
		args []string
		want int
	}{
		{"no firing heard is an answer", []string{"check", silent}, exitDone},
		{"strictly, not judged is 5", []string{"check", "--strict", silent}, exitNotJudged},
		{"a missing clip is a failure", []string{"check", "missing.wav"}, exitFailed},
		{"a missing clip beside a good one is 3", []string{"check", silent, "missing.wav"}, exitSome},
		{"all clips missing is a failure", []string{"check", "missing.wav", "gone.wav"}, exitFailed},
		{"told speeds over a missing clip are a failure", []string{"check", silent, "missing.wav", "--speeds", "1"}, exitFailed},
		{"a wrong flag is misuse", []string{"check", "--wrong", silent}, exitMisused},
		{"a wrong value is misuse", []string{"check", "--temperature", "hot", silent}, exitMisused},
		{"no argument is misuse", []string{"check"}, exitMisused},
		{"two records are misuse", []string{"chart", "a.json", "b.json"}, exitMisused},
		{"an unknown command is misuse", []string{"listen"}, exitMisused},
		{"help is no misuse", []string{"check", "--help"}, exitDone},
		{"a bad record is a failure", []string{"chart", silent}, exitFailed},
	}
	for _, c := range cases {
		var out, errs bytes.Buffer
		if got := run(c.args, strings.NewReader(""), &out, &errs); got != c.want {
			t.Errorf("%s: earshot %v exits with %d, want %d\n%s", c.name, c.args, got, c.want, errs.String())
		}
		if misused := c.want == exitMisused; misused != strings.Contains(errs.String(), "Usage:") {
			t.Errorf("%s: usage is shown on misuse only:\n%s", c.name, errs.String())
		}
	}
}

func TestInterruptedWorkStopsWith130AndWritesNothing(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	dir := t.TempDir()
	clip := filepath.Join(dir, "silent.wav")
	if err := os.WriteFile(clip, silence(), 0o644); err != nil {
		t.Fatal(err)
	}
	var errs bytes.Buffer
	a := app{strings.NewReader(""), io.Discard, &errs}
	work := map[string]func() error{
		"check": func() error {
			return a.check(ctx, checkOptions{Sitting: sitting.Sitting{Clips: []string{clip}}, record: filepath.Join(dir, "record.json")})
		},
		"demo": func() error { return a.demo(ctx, dir, nil) },
	}
	for name, do := range work {
		if code := a.conclude(do(), false); code != exitInterrupted {
			t.Errorf("%s: exit code %d, want %d: %s", name, code, exitInterrupted, errs.String())
		}
		if left, _ := os.ReadDir(dir); len(left) != 1 {
			t.Errorf("%s left %v", name, left)
		}
	}
}

func TestOfExamplesInHelpEveryOneParses(t *testing.T) {
	root := newRoot(app{})
	for _, c := range append(root.Commands(), root) {
		if !c.IsAvailableCommand() || c.Name() == "help" || c.Name() == "completion" {
			continue
		}
		if c.Example == "" {
			t.Errorf("%s has no example", c.CommandPath())
		}
		for _, line := range strings.Split(c.Example, "\n") {
			args := argumentsOf(line)
			found, rest, err := root.Find(args[1:])
			if err != nil || args[0] != "earshot" {
				t.Errorf("%s: %q is no command: %v", c.CommandPath(), line, err)
				continue
			}
			if err := found.ParseFlags(rest); err != nil {
				t.Errorf("%q: %v", line, err)
			}
			if err := found.ValidateArgs(found.Flags().Args()); err != nil {
				t.Errorf("%q: %v", line, err)
			}
		}
	}
}

// argumentsOf splits a command line at spaces outside double quotes.
func argumentsOf(line string) []string {
	quoted := false
	fields := strings.FieldsFunc(line, func(r rune) bool {
		if r == '"' {
			quoted = !quoted
		}
		return r == ' ' && !quoted
	})
	for i, f := range fields {
		fields[i] = strings.Trim(f, `"`)
	}
	return fields
}
