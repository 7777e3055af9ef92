package dsp

import (
	"math"
	"testing"
)

// heardTone is the level of a steady tone of −20 dBFS in each ear, dBFS.
func heardTone(t *testing.T, rate int, hz float64) (level [NumEars]float64) {
	t.Helper()
	x := make([]float64, rate/2)
	for i := range x {
		x[i] = 0.1 * math.Sqrt2 * math.Sin(2*math.Pi*hz*float64(i)/float64(rate))
	}
	h, err := Listen(&Held{Layout: Format{Rate: rate, Channels: 1}, Frames: x})
	if err != nil {
		t.Fatal(err)
	}
	for e := range level {
		values := h.Levels.Ears[e]
		level[e] = h.Levels.Level(values[len(values)/2])
	}
	return level
}

func TestEachEarHearsFromItsCornerUp(t *testing.T) {
	const passed, stopped = 1.5, 10 // dB
	for _, rate := range []int{44100, 48000, 96000} {
		for _, tt := range []struct {
			hz    float64
			hears [NumEars]bool
		}{
			{700, [NumEars]bool{true, false, false, false}},
			{1800, [NumEars]bool{true, true, false, false}},
			{3600, [NumEars]bool{true, true, true, false}},
			{9000, [NumEars]bool{true, true, true, true}},
		} {
			for e, level := range heardTone(t, rate, tt.hz) {
				corner := earCorners[e]
				switch {
				case tt.hears[e] && tt.hz > 1.7*corner && math.Abs(level+20) > passed:
					t.Errorf("at %d Hz, ear %d hears a tone of %g Hz at %.1f dBFS, want −20", rate, e, tt.hz, level)
				case !tt.hears[e] && tt.hz < corner/2 && level > -20-stopped:
					t.Errorf("at %d Hz, ear %d hears a tone of %g Hz at %.1f dBFS, want it weaker by %d dB", rate, e, tt.hz, level, stopped)
				}
			}
		}
	}
}

func TestAnEarBeyondWhatAClipHoldsIsDeaf(t *testing.T) {
	level := heardTone(t, 8000, 3000)
	if level[3] > -110 {
		t.Errorf("at 8 kHz the ear from 4 kHz up hears %.1f dBFS", level[3])
	}
	if level[0] < -25 {
		t.Errorf("and the widest %.1f dBFS, want about −20", level[0])
	}
}
