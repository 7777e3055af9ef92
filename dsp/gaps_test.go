package dsp

import (
	"math"
	"slices"
	"testing"
)

// A clip of 8 bits whose noise is a fifth of its step is silent between its sounds;
// what is cut out of a sound there is lost all the same.
func TestSilenceThatASoundFadesIntoIsNoGap(t *testing.T) {
	const rate, n = 48000, 96000
	tests := []struct {
		name   string
		noise  float64 // steps
		bits   int
		change func(x []float64)
		want   []Gap
	}{
		{"quiet coarser than its noise", 0.2, 8, func([]float64) {}, nil},
		{"quiet far below a step", 0.01, 8, func([]float64) {}, nil},
		{"quiet far below a step that begins with a sound", 0.01, 8, func(x []float64) { copy(x, x[9000:]) }, nil},
		{"zeros in a sound of such a clip", 0.2, 8, func(x []float64) { clear(x[9120:9360]) }, []Gap{{9120, 9360}}},
		{"zeros in noise of a few steps", 3, 16, func(x []float64) { clear(x[48000:52800]) }, []Gap{{48000, 52800}}},
		{"a noise gate in a clip of 16 bits", 20, 16, func(x []float64) { clear(x[12000:36000]) }, []Gap{{12000, 36000}}},
		{"nothing but digital silence", 0, 16, func(x []float64) { clear(x) }, []Gap{{0, n}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			step := math.Ldexp(1, 1-tt.bits)
			x := bursts(rate, n, tt.noise*step, 9000, 40008, 72000)
			for i := range x {
				x[i] = math.Round(x[i]/step) * step
			}
			tt.change(x)
			if h := listen(t, Format{rate, 1}, x); !slices.Equal(h.Gaps, tt.want) {
				t.Errorf("gaps = %v, want %v", h.Gaps, tt.want)
			}
		})
	}
}
