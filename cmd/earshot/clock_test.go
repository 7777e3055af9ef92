package main

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"earshot/dsp/synth"
	"earshot/dsp/wavfile"
)

// recordAsWAV writes a synthetic recording as WAV and returns its name.
func recordAsWAV(t *testing.T, r synth.Recording) string {
	t.Helper()
	c, err := r.Clip()
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "clip.wav")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := wavfile.Copy(f, c); err != nil {
		t.Fatal(err)
	}
	return path
}

// Ticks by sound: a burst of several impacts each, tick and tock of different sound, in
// the noise of a room, by recorders that are fast and slow.
func TestTheClockOfARecorderIsFoundBySound(t *testing.T) {
	for name, c := range map[string]struct {
		ppm   float64
		alike bool
		noise float64
	}{
		"a fast recorder":                   {60, true, 40},
		"a slow recorder":                   {-35, true, 30},
		"tick and tock that sound unlike":   {12, false, 40},
		"a clock heard in the room's noise": {80, false, 24},
	} {
		if testing.Short() && c.alike {
			continue
		}
		t.Run(name, func(t *testing.T) {
			path := recordAsWAV(t, synth.Recording{
				Seed:  uint64(100 + c.noise + c.ppm),
				Take:  synth.Take{Length: 300, Clock: &synth.Clock{Every: 1, Jitter: 0.3e-3, Alike: c.alike}},
				Noise: synth.Noise{Colour: synth.RoomNoise, ClickOver: c.noise},
				Phone: synth.Phone{Rate: 44100, Bits: 16, ClockPPM: c.ppm},
			})
			var out, errs bytes.Buffer
			if code := run([]string{"clock", path, "--every", "1s", "--json"}, nil, &out, &errs); code != 0 {
				t.Fatalf("exit %d: %s", code, errs.String())
			}
			var got struct {
				Clock struct {
					Error float64 `json:"error_ppm"`
					U95   float64 `json:"u95_ppm"`
					Ticks int     `json:"ticks"`
				} `json:"clock"`
			}
			if err := json.Unmarshal(out.Bytes(), &got); err != nil {
				t.Fatal(err)
			}
			t.Logf("%.2f ± %.2f ppm from %d ticks, want %.0f", got.Clock.Error, got.Clock.U95, got.Clock.Ticks, c.ppm)
			if math.Abs(got.Clock.Error-c.ppm) > 2 {
				t.Errorf("%.2f ± %.2f ppm, want %.0f within 2", got.Clock.Error, got.Clock.U95, c.ppm)
			}
		})
	}
}
