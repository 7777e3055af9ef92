package main

import (
	"math"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"earshot/dsp"
	"earshot/dsp/outside"
	"earshot/dsp/synth"
	"earshot/shutter"
)

// aubioByItself are aubio's onsets by its own method and thresholds, in frames short
// enough for clicks; only the level below which it calls a sound silence is set, above
// the noise of the room.
func aubioByItself(t *testing.T, a aubio, path string) []float64 {
	t.Helper()
	out, err := exec.Command(a.path, "-r", strconv.Itoa(recordedRate), "-B", "512", "-H", "128", "-s", "-40", "-i", path).Output()
	if err != nil {
		t.Fatal(err)
	}
	var onsets []float64
	for _, line := range strings.Fields(string(out)) {
		at, err := strconv.ParseFloat(line, 64)
		if err != nil {
			t.Fatal(err)
		}
		onsets = append(onsets, at)
	}
	return onsets
}

// Both hear the openings and closings and nothing else, but for a lag that is the same
// throughout: aubio's frames begin before the click that is in them. Of its onsets one
// now and then lies 10 ms early, in the noise before a click.
func TestRealClicksAreHeardWhereAubioHearsThem(t *testing.T) {
	source := outside.Source{Name: "aubio, aubioonset", Figures: "run beside this program, by Debian's aubio-tools, on clicks of Debian's sound-theme-freedesktop"}
	sounds := openRecorded(t)
	a, ok := findAubio()
	if !ok {
		missingYardstick(t, "aubio-tools")
	}
	near, all := 0, 0
	for seed := range uint64(3) {
		x, truth := bench{sounds, 40, false}.clip(seed)
		clip := synth.Loop(dsp.Format{Rate: recordedRate, Channels: 1}, x, int64(len(x)))
		path := filepath.Join(t.TempDir(), "clip.wav")
		if err := writeClip(path, clip); err != nil {
			t.Fatal(err)
		}
		_, found, err := detect(synth.Loop(dsp.Format{Rate: recordedRate, Channels: 1}, x, int64(len(x))), shutter.Leaf)
		if err != nil {
			t.Fatal(err)
		}
		ours, theirs := heardOnsets(found), aubioByItself(t, a, path)
		outside.Exact(t, source, "number of onsets in a clip of 15 firings", []int{len(ours)}, []int{len(theirs)})
		var lags []float64
		for _, at := range ours {
			lags = append(lags, nearest(theirs, at)-at)
		}
		slices.Sort(lags)
		lag := quantile(lags, 0.5)
		t.Logf("%d firings, %d onsets; aubio's lie from %+.2f to %+.2f ms after ours", len(truth), len(ours), 1e3*lags[0], 1e3*lags[len(lags)-1])
		for _, l := range lags {
			if all++; math.Abs(l-lag) <= 1e-3 {
				near++
			}
		}
	}
	outside.Share(t, source, "these onsets within 1 ms of each other, their common lag taken out", near, all, 0.95)
}
