package sitting_test

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"earshot/cmd/internal/fault"
	"earshot/cmd/internal/files"
	"earshot/cmd/internal/sitting"
	"earshot/dsp/synth"
	"earshot/dsp/wavfile"
	"earshot/report"
	"earshot/shutter"
	"earshot/shutter/judge"
)

// fired writes a clip of eight firings, three at 1/15 and five at 1/30 s.
func fired(t *testing.T, path string, seed uint64) string {
	t.Helper()
	r := synth.Demo(1)[0].Recording
	r.Seed, r.Take.Settings = seed, r.Take.Settings[4:]
	c, err := r.Clip()
	if err == nil {
		err = files.Write(t.Context(), path, func(f *os.File) error { return wavfile.Copy(f, c) })
	}
	if err != nil {
		t.Fatal(err)
	}
	return path
}

func sat(t *testing.T, speeds string, clips ...string) sitting.Sitting {
	t.Helper()
	s := sitting.Sitting{Clips: clips, Kind: shutter.Leaf, Lens: report.Lens{Name: "Corvane 105 mm f/3.5", Shutter: "leaf"}, Policy: judge.Standard(),
		Now: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), Version: "v1", Notes: io.Discard}
	if speeds != "" {
		var err error
		if s.Steps, err = shutter.ParseSteps(speeds); err != nil {
			t.Fatal(err)
		}
	}
	return s
}

func TestASittingBecomesARecordWithoutACommand(t *testing.T) {
	d, missed, err := sat(t, "1/15x3 1/30x5", fired(t, filepath.Join(t.TempDir(), "corvane.wav"), 1)).Examine(t.Context())
	if err != nil || len(missed) > 0 {
		t.Fatal(err, missed)
	}
	if len(d.Firings) != 8 || len(d.Speeds) != 2 || d.Verdict == judge.NotJudged || d.Tool.Version != "v1" || d.Clips[0].File != "corvane.wav" {
		t.Errorf("%s, of %d firings at %d speeds, by %s", d.VerdictWords(), len(d.Firings), len(d.Speeds), d.Tool.Version)
	}
}

func TestAClipThatCannotBeHeardIsMissedOnlyWhereNoSpeedsWereTold(t *testing.T) {
	dir := t.TempDir()
	here, gone := fired(t, filepath.Join(dir, "a.wav"), 1), filepath.Join(dir, "gone.wav")
	d, missed, err := sat(t, "", here, gone).Examine(t.Context())
	if err != nil || len(missed) != 1 || fault.Of(missed[0]).File != gone || len(d.Firings) != 8 {
		t.Errorf("%d firings, missed %v, %v", len(d.Firings), missed, err)
	}
	_, _, err = sat(t, "1/15x3 1/30x5", here, gone).Examine(t.Context())
	if f := fault.Of(err); err == nil || f.Code != "missing-file" || !strings.Contains(f.Hint, "nothing was judged") {
		t.Errorf("told the speeds: %+v", f)
	}
}

func TestARecordingNamedTwiceProvesNothingMore(t *testing.T) {
	dir := t.TempDir()
	_, _, err := sat(t, "", fired(t, filepath.Join(dir, "a.wav"), 1), fired(t, filepath.Join(dir, "b.wav"), 1)).Examine(t.Context())
	if f := fault.Of(err); err == nil || f.Code != "same-clip" {
		t.Errorf("%+v", f)
	}
}
