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

func TestGapsAreStretchesOfZerosOnEveryChannel(t *testing.T) {
	const rate, n = 48000, 24000
	tests := []struct {
		name string
		lose func(left, right []float64)
		want []Gap
	}{
		{"zeros on one channel only are none", func(left, _ []float64) { clear(left[4800:9600]) }, nil},
		{"zeros on both are one", func(left, right []float64) { clear(left[4800:9600]); clear(right[4800:9600]) }, []Gap{{4800, 9600}}},
		{"a run of 2 ms is just quiet", func(left, right []float64) { clear(left[4800:4896]); clear(right[4800:4896]) }, nil},
		{"the clip's end ends one", func(left, right []float64) { clear(left[21600:]); clear(right[21600:]) }, []Gap{{21600, n - 7}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			left, right := bursts(rate, n, 0.001)[:n-7], bursts(rate, n, 0.002)[:n-7]
			tt.lose(left, right)
			h := listen(t, Format{rate, 2}, interleave(left, right))
			if len(h.Gaps) != len(tt.want) {
				t.Fatalf("gaps = %v, want %v", h.Gaps, tt.want)
			}
			for i, g := range h.Gaps {
				if g != tt.want[i] {
					t.Errorf("gap %v, want %v", g, tt.want[i])
				}
			}
		})
	}
}
