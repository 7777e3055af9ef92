package main

import (
	"bytes"
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"earshot/dsp/synth"
	"earshot/report"
)

// checked runs check with --json and returns the record.
func checked(t *testing.T, args ...string) report.Document {
	t.Helper()
	var out, errs bytes.Buffer
	if code := run(append([]string{"check", "--json", "--now", "2026-11-25"}, args...), strings.NewReader(""), &out, &errs); code != exitDone {
		t.Fatalf("check %v exits with %d: %s", args, code, errs.String())
	}
	var d report.Document
	if err := json.Unmarshal(out.Bytes(), &d); err != nil {
		t.Fatal(err)
	}
	return d
}

func TestLabelsReadBackUnchangedAreJudgedAlike(t *testing.T) {
	t.Chdir(t.TempDir())
	if code := run([]string{"demo", "."}, strings.NewReader(""), &bytes.Buffer{}, &bytes.Buffer{}); code != exitDone {
		t.Fatal("no demo")
	}
	const hangs = "vastrel-90.wav" // the lens that is laid in other ways as well
	for i, lens := range synth.Demo(demoSeed) {
		if testing.Short() && i > 0 && lens.File != hangs {
			continue
		}
		if filepath.Ext(lens.File) != ".wav" { // its decoder is a program of its own
			continue
		}
		tellings := [][]string{{"--speeds", lens.Speeds}}
		if lens.File == hangs {
			tellings = append(tellings, []string{"--speeds", "1 1/2 1/4 1/8 1/15"}, []string{"--speeds", "1/125x15"}, nil)
		}
		for _, told := range tellings {
			heard := checked(t, append(told, lens.File, "--labels", "labels.txt")...)
			again := checked(t, append(told, lens.File, "--use-labels", "labels.txt")...)
			by := again.Clips[0].ByHand
			if by == nil || by.AsHeard != len(heard.Firings) || by.Moved+by.Added+len(by.LeftOut) > 0 {
				t.Errorf("%s, told %v: not all are as heard: %+v", lens.File, told, by)
			}
			again.Clips[0].ByHand = nil
			if d := cmp.Diff(heard, again); d != "" {
				t.Errorf("%s, told %v (-heard +from labels):\n%s", lens.File, told, d)
			}
		}
	}
}

func TestLabelsCarryTheSpeedsThatWereTold(t *testing.T) {
	t.Chdir(t.TempDir())
	lens := synth.Demo(demoSeed)[0]
	if code := run([]string{"demo", ".", lens.File}, strings.NewReader(""), &bytes.Buffer{}, &bytes.Buffer{}); code != exitDone {
		t.Fatal("no demo")
	}
	told := checked(t, lens.File, "--speeds", lens.Speeds, "--labels", "labels.txt")
	bare := checked(t, lens.File, "--use-labels", "labels.txt")
	if d := cmp.Diff(told.Speeds, bare.Speeds); d != "" || bare.Verdict != told.Verdict {
		t.Errorf("verdict %v, was %v (-told +from labels):\n%s", bare.Verdict, told.Verdict, d)
	}
}
