package shutter

import (
	"math"
	"testing"

	"earshot/dsp"
)

func TestADryRoomFadesFasterThanAnyRoom(t *testing.T) {
	every := func(gap float64, decays ...float64) (all []sound) {
		for i, d := range decays {
			all = append(all, sound{at: gap * float64(i), rise: 30, decay: d})
		}
		return all
	}
	tests := []struct {
		name  string
		all   []sound
		after float64 // s
		want  float64 // dB
	}{
		{"a dry room, soon after", every(1, 24, 26, 27, 28), 0.01125, 13},
		{"a dry room, when decay was taken and later", every(1, 24, 26, 27, 28), 0.05, 26},
		{"later than that it fades as any room does", every(1, 24, 26, 27, 28), 0.2, 0.2 * dsp.Fading},
		{"a room that echoes fades no more slowly than any", every(1, 2, 2, 2, 2), 0.02, 0.02 * dsp.Fading},
		{"of sounds too near each other nothing is told", every(0.03, 24, 26, 27, 28), 0.02, 0.02 * dsp.Fading},
		{"nor of two", every(1, 26, 26), 0.02, 0.02 * dsp.Fading},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := fadingOf(tt.all).after(tt.after); math.Abs(got-tt.want) > 1e-9 {
				t.Errorf("%.3f dB, want %.3f", got, tt.want)
			}
		})
	}
}
