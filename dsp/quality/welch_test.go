package quality

import (
	"math"
	"testing"

	"earshot/dsp/outside"
)

// The golden densities are SciPy's, by Debian's python3-scipy 1.10.1:
//
//	cd dsp/quality/testdata && /usr/bin/python3 welch.py > welch.json
func TestWelchAgreesWithSciPy(t *testing.T) {
	var cases []struct {
		Rate, Segment, Length int
		Step                  float64 `json:"step_hz"`
		Density               []float64
	}
	outside.ReadFigures(t, "testdata/welch.json", &cases)
	for _, c := range cases {
		a := averager{rate: c.Rate, segment: c.Segment}
		a.add(toneInNoise(c.Length, c.Rate))
		s := a.spectrum()
		if s.Step != c.Step || len(s.Density) != len(c.Density) {
			t.Fatalf("%d densities %g Hz apart, SciPy has %d, %g Hz apart", len(s.Density), s.Step, len(c.Density), c.Step)
		}
		for k, want := range c.Density {
			outside.Agree(t, outside.SciPy(), "power density of a tone in noise, 8 to 48 kHz, every bin (welch)", s.Density[k], want, 9)
		}
	}
}

// toneInNoise is the signal that welch.py makes.
func toneInNoise(n, rate int) []float64 {
	x, s := make([]float64, n), uint64(1)
	for i := range x {
		s = (s*1103515245 + 12345) % (1 << 31)
		x[i] = 0.1*(float64(s)/(1<<30)-1) + 0.25 + 0.5*math.Sin(2*math.Pi*1000*float64(i)/float64(rate))
	}
	return x
}

func TestASpectrumHoldsThePowerOfTheSignal(t *testing.T) {
	// A sine of amplitude 0.5 has a mean square of 1/8; its offset is no sound.
	const rate, n = 48000, 16384
	x := make([]float64, n)
	for i := range x {
		x[i] = 0.3 + 0.5*math.Sin(2*math.Pi*3000*float64(i)/rate)
	}
	a := averager{rate: rate, segment: n / 4}
	a.add(x)
	s := a.spectrum()
	if got := s.power(2900, 3100); math.Abs(got-0.125) > 1e-3 {
		t.Errorf("about 3 kHz: %g, want 0.125", got)
	}
	if got := s.power(0, 2000) + s.power(4000, rate/2); got > 1e-6 {
		t.Errorf("elsewhere: %g, want nothing", got)
	}
}
