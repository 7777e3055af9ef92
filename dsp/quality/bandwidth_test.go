package quality

import (
	"math"
	"testing"
)

// shaped is a spectrum up to 24 kHz whose density is given in dB.
func shaped(dB func(hz float64) float64) *Spectrum {
	s := &Spectrum{Step: 46.875, Density: make([]float64, 513)}
	for k := range s.Density {
		s.Density[k] = math.Pow(10, dB(float64(k)*s.Step)/10)
	}
	return s
}

func TestOnlyACliffEndsTheBandwidth(t *testing.T) {
	// The noise of 16-bit quantisation, white: −101 dBFS over 24 kHz.
	const floor = -145.0
	for name, c := range map[string]struct {
		dB   func(hz float64) float64
		want float64
	}{
		"flat":                       {func(float64) float64 { return -100 }, 24000},
		"falling 12 dB an octave":    {func(hz float64) float64 { return -60 - 40*math.Log10(max(hz, 50)/1000) }, 24000},
		"a fourth-order low-pass":    {func(hz float64) float64 { return -80 - 10*math.Log10(1+math.Pow(hz/8000, 8)) }, 24000},
		"one high tone over noise":   {func(hz float64) float64 { return -110 + 40*math.Exp(-math.Pow((hz-17000)/150, 2)) }, 24000},
		"a brick wall":               {func(hz float64) float64 { return wall(hz, 8000, -90, floor) }, 8000},
		"a wall under tones":         {func(hz float64) float64 { return wall(hz, 13000, -100+15*math.Sin(hz/300), floor) }, 13000},
		"a recorder's own at 22 kHz": {func(hz float64) float64 { return wall(hz, 22500, -90, floor) }, 24000},
		"a wall with something above": {func(hz float64) float64 {
			return math.Max(wall(hz, 8000, -90, floor), wall(hz-12000, 2000, -92, floor))
		}, 14000},
	} {
		if got := cutoff(shaped(c.dB)); math.Abs(got-c.want) > 0.03*c.want {
			t.Errorf("%s: ends at %.0f Hz, want %.0f", name, got, c.want)
		}
	}
}

func wall(hz, edge, below, above float64) float64 {
	if hz < edge {
		return below
	}
	return above
}
