package dsp

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"earshot/dsp/outside"
)

// noiseStep is Gaussian noise of power 1 that gets louder by gain from sample k on.
func noiseStep(rng *rand.Rand, n, k int, gain float64) []float64 {
	x := make([]float64, n)
	for i := range x {
		x[i] = rng.NormFloat64()
		if i >= k {
			x[i] *= gain
		}
	}
	return x
}

func TestOnsetIsTheFirstSampleOfTheNewSound(t *testing.T) {
	tests := []struct {
		name      string
		k         int
		gain      float64
		tolerance float64
	}{
		{"a step of 40 dB is found to the sample", 100, 100, 1},
		{"a step of 20 dB is found to two samples", 150, 10, 2},
		{"an onset near the end is found", 180, 100, 1.5},
		{"an onset near the start is found", 12, 100, 1.5},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var sum float64
			const trials = 200
			for seed := range uint64(trials) {
				rng := rand.New(rand.NewPCG(seed, 7))
				got, u, ok := PickOnset(noiseStep(rng, 200, tt.k, tt.gain))
				if !ok {
					t.Fatalf("seed %d: no onset", seed)
				}
				if math.Abs(got-float64(tt.k)) > tt.tolerance+6*u {
					t.Errorf("seed %d: onset = %.2f ± %.2f, want %d", seed, got, u, tt.k)
				}
				sum += got - float64(tt.k)
			}
			if bias := sum / trials; math.Abs(bias) > tt.tolerance {
				t.Errorf("mean error = %.2f samples, want within ±%.1f", bias, tt.tolerance)
			}
		})
	}
}

// The Akaike weights claim to be a probability: the error must be of the size they state.
func TestStatedUncertaintyMatchesTheScatter(t *testing.T) {
	const trials = 2000
	for _, gain := range []float64{3, 6} {
		var z2 float64
		for seed := range uint64(trials) {
			rng := rand.New(rand.NewPCG(seed, 3))
			k := 80 + rng.IntN(80)
			got, u, ok := PickOnset(noiseStep(rng, 240, k, gain))
			if !ok {
				t.Fatal("no onset")
			}
			u = math.Hypot(u, 1/math.Sqrt(12)) // the truth is a whole sample
			z2 += (got - float64(k)) * (got - float64(k)) / (u * u)
		}
		if rms := math.Sqrt(z2 / trials); rms < 0.6 || rms > 1.4 {
			t.Errorf("gain %v: RMS of error over stated uncertainty = %.2f, want about 1", gain, rms)
		}
	}
}

// slowAIC is the formula of Maeda (1985), written out for one k at a time.
func slowAIC(x []float64, k int) float64 {
	power := func(x []float64) float64 {
		var sum float64
		for _, v := range x {
			sum += v * v / float64(len(x))
		}
		return sum + 1e-11
	}
	return float64(k)*math.Log(power(x[:k])) + float64(len(x)-k)*math.Log(power(x[k:]))
}

func TestAICAgreesWithItsFormulaAtEverySample(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SliceOfN(rapid.Float64Range(-1, 1), 2*minSide, 60).Draw(t, "x")
		aic := akaike(nil, x)
		if len(aic) != len(x)-2*minSide+1 {
			t.Fatalf("len = %d for %d samples", len(aic), len(x))
		}
		for i, got := range aic {
			if want := slowAIC(x, i+minSide); math.Abs(got-want) > 1e-6*(1+math.Abs(want)) {
				t.Errorf("AIC(%d) = %v, want %v", i+minSide, got, want)
			}
		}
	})
}

// ObsPy's picker gives every sample of constant input the same AIC, −Inf, and both of
// two samples 0: it prefers none of them.
func TestWhereEverySampleIsAsGoodNoneIsPicked(t *testing.T) {
	var picked []bool
	for _, x := range [][]float64{make([]float64, 100), {0, 1}} {
		_, _, ok := PickOnset(x)
		picked = append(picked, ok)
	}
	outside.Exact(t, obsPy(), "no onset in constant input, nor in two samples", picked, []bool{false, false})
}

func TestNothingToPick(t *testing.T) {
	tests := map[string][]float64{
		"nothing":              nil,
		"a sound that falls":   append([]float64{1, -1, 1, -1, 1, -1}, make([]float64, 50)...),
		"a constant magnitude": {1, -1, 1, -1, 1, -1, 1, -1, 1, -1},
	}
	for name, x := range tests {
		t.Run(name, func(t *testing.T) {
			if onset, u, ok := PickOnset(x); ok {
				t.Errorf("PickOnset = %v ± %v, want none", onset, u)
			}
		})
	}
}

func TestPickIsBlindToGainAndPolarity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 0))
		gain := rapid.Float64Range(0.01, 100).Draw(t, "gain")
		x := noiseStep(rng, 200, 40+rng.IntN(100), 10)
		want, wantU, _ := PickOnset(x)
		for i := range x {
			x[i] *= -gain
		}
		got, gotU, ok := PickOnset(x)
		if !ok || math.Abs(got-want) > 1e-6 || math.Abs(gotU-wantU) > 1e-6 {
			t.Errorf("pick = %v ± %v, want %v ± %v", got, gotU, want, wantU)
		}
	})
}
