package num

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"earshot/dsp/outside"
)

func TestTheNthIsThatOfTheSorted(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 8))
	for range 500 {
		x := make([]float64, 1+rng.IntN(40))
		for i := range x {
			x[i] = float64(rng.IntN(12)) // with many alike
		}
		n := rng.IntN(len(x))
		want := slices.Sorted(slices.Values(x))[n]
		if got := Nth(x, n); got != want {
			t.Fatalf("value %d of %v is %g, want %g", n, x, got, want)
		}
	}
}

func TestTheMedianLiesBetweenTheTwoInTheMiddle(t *testing.T) {
	for _, tt := range []struct {
		x    []float64
		want float64
	}{{nil, 0}, {[]float64{7}, 7}, {[]float64{3, 1, 2}, 2}, {[]float64{9, 2, 5, 3}, 4}} {
		given := slices.Clone(tt.x)
		if got := Median(given); got != tt.want || !slices.Equal(given, tt.x) {
			t.Errorf("Median(%v) = %g and leaves %v, want %g and no change", tt.x, got, given, tt.want)
		}
	}
}

func TestNothingHasNoPowerAndTheLevelOfSilence(t *testing.T) {
	if got := MeanSquare(nil); got != 0 {
		t.Errorf("MeanSquare of nothing = %g, want 0", got)
	}
	if got := Level(0); math.Abs(got+110) > 1e-9 { // Silence is 1e-11
		t.Errorf("Level(0) = %g dBFS, want -110", got)
	}
	if got := Decibel(0); !math.IsInf(got, -1) {
		t.Errorf("Decibel(0) = %g, want -Inf", got)
	}
}

func TestTheSpreadOfOnsetsAgreesWithSciPy(t *testing.T) {
	var cases []struct {
		X  []float64
		SD float64
	}
	outside.ReadFigures(t, "testdata/spread.json", &cases)
	for _, c := range cases {
		outside.Agree(t, outside.SciPy(), "standard deviation by the median deviation, of onsets (median_abs_deviation)", Spread(c.X, Median(c.X)), c.SD, 12)
	}
}
