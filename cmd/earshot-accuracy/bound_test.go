package main

import (
	"math"
	"testing"
)

// gaussianTone is exp(−t²/2σ²)·cos(2πft) about the middle of 10 ms, at rate, Hz.
func gaussianTone(freq, sigma, rate float64) []float64 {
	x := make([]float64, int(0.01*rate))
	for i := range x {
		t := (float64(i) - float64(len(x))/2) / rate
		x[i] = math.Exp(-t*t/(2*sigma*sigma)) * math.Cos(2*math.Pi*freq*t)
	}
	return x
}

// A Gaussian-windowed tone of many periods has the energy σ√π/2, and |S|² is a Gaussian
// about its frequency whose variance is 1/(2σ²) in radians a second, so that
// β² = (2πf)² + 1/(2σ²).
func TestBoundInWhiteNoiseIsThatOfTheClosedForm(t *testing.T) {
	const rate, n0 = 48000.0, 1e-9
	cases := []struct {
		name        string
		freq, sigma float64
	}{
		{"4 kHz for 0.5 ms", 4000, 0.5e-3},
		{"1 kHz for 1 ms", 1000, 1e-3},
		{"12 kHz for 0.1 ms", 12000, 0.1e-3},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			energy := c.sigma * math.Sqrt(math.Pi) / 2
			beta2 := math.Pow(2*math.Pi*c.freq, 2) + 1/(2*c.sigma*c.sigma)
			want := 1 / math.Sqrt(2*energy/n0*beta2)
			got := delayBound(gaussianTone(c.freq, c.sigma, rate), rate, func(float64) float64 { return n0 })
			if math.Abs(got/want-1) > 1e-3 {
				t.Errorf("bound %.4g µs, want %.4g", 1e6*got, 1e6*want)
			}
		})
	}
}

// In noise whose density is K·(2πf)² frequency no longer counts: 4∫|S|²/K df over
// f > 0 is 2E/K.
func TestBoundInColouredNoiseCountsEveryFrequencyByItsNoise(t *testing.T) {
	const k = 1e-18
	sigma := 0.3e-3
	want := 1 / math.Sqrt(sigma*math.Sqrt(math.Pi)/k)
	for _, rate := range []float64{44100, 96000} {
		got := delayBound(gaussianTone(6000, sigma, rate), rate, func(f float64) float64 { return k * math.Pow(2*math.Pi*f, 2) })
		if math.Abs(got/want-1) > 1e-3 {
			t.Errorf("bound at %g Hz %.4g µs, want %.4g", rate, 1e6*got, 1e6*want)
		}
	}
}

func TestSilenceTellsNoInstant(t *testing.T) {
	if got := delayBound(make([]float64, 100), 48000, func(float64) float64 { return 1 }); !math.IsInf(got, 1) {
		t.Errorf("bound of silence = %g, want +Inf", got)
	}
}

func TestASoundIsCutAtTheNextAndFaded(t *testing.T) {
	x := make([]float64, 1000)
	for i := range x {
		x[i] = 1
	}
	cases := []struct {
		name     string
		from, to float64
		n        int
	}{
		{"the next comes after 2 ms", 0.0101, 0.0121, 96},
		{"nothing comes for long", 0.0101, 0.9, 144},
		{"the clip ends", 0.0200, 0.9, 40},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got := soundFrom(x, 48000, c.from, c.to)
			if len(got) != c.n || got[0] != 1 || got[len(got)-1] > 1e-12 {
				t.Fatalf("%d samples from %g to %g, want %d from 1 to 0", len(got), got[0], got[len(got)-1], c.n)
			}
			if kept := got[c.n*3/4-1]; kept != 1 {
				t.Errorf("the third quarter ends in %g, want 1", kept)
			}
		})
	}
	if x[999] != 1 {
		t.Error("the clip itself was faded")
	}
}
