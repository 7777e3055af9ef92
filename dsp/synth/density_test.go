package synth

import (
	"math"
	"testing"
)

// The density, summed over a band, is the power measured there in a clip of nothing
// but noise.
func TestNoiseHasItsDensityInEveryBand(t *testing.T) {
	cases := []struct {
		name  string
		noise Noise
		bits  int
	}{
		{"white", Noise{White, 24}, 16},
		{"pink", Noise{Pink, 40}, 16},
		{"room", Noise{RoomNoise, 30}, 16},
		{"white, and 0.8 dB more of rounding to 8 bits", Noise{White, 20}, 8},
	}
	const rate = 48000
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r := Recording{Seed: 3, Take: Take{Length: 8}, Noise: c.noise, Phone: Phone{Rate: rate, Bits: c.bits}}
			x := mustClip(t, r).Samples()[0]
			density := r.NoiseDensity()
			for low := 400.0; low < 10000; low *= 2 {
				want, df := 0.0, low/1000
				for f := low + df/2; f < 2*low; f += df {
					want += density(f) * df
				}
				got := decibels(bandRMS(x, [2]float64{low, 2 * low}, rate))
				if want := decibels(math.Sqrt(want)); math.Abs(got-want) > 0.3 {
					t.Errorf("%.0f to %.0f Hz: %.2f dBFS, by the density %.2f", low, 2*low, got, want)
				}
			}
		})
	}
}
