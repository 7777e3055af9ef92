package describe

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats"
	"pgregory.net/rapid"
)

// slowCorrelation adds up every pair of samples that exists.
func slowCorrelation(x, y []float64, lag int) float64 {
	var xy, xx, yy float64
	for k := range y {
		if k+lag < 0 || k+lag >= len(x) {
			continue
		}
		xy += x[k+lag] * y[k]
		xx += x[k+lag] * x[k+lag]
		yy += y[k] * y[k]
	}
	return xy / math.Sqrt(xx*yy)
}

func TestCorrelationIsThatOfTheSlowSum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sample := rapid.Map(rapid.IntRange(-32768, 32767), func(n int) float64 { return float64(n) / 32768 })
		some := rapid.SliceOfN(sample, 1, 40)
		x, y := some.Draw(t, "x"), some.Draw(t, "y")
		lag := rapid.IntRange(-45, 45).Draw(t, "lag")
		got, want := correlation(x, y, lag), slowCorrelation(x, y, lag)
		if math.IsNaN(want) { // nothing to compare, or silence
			want = -1
		}
		if math.Abs(got-want) > 1e-9 {
			t.Errorf("correlation at lag %d = %g, want %g", lag, got, want)
		}
	})
}

// Powers this small or large have no product in a float.
func TestCorrelationDoesNotHearHowLoudASoundIs(t *testing.T) {
	x, y := []float64{0.5, -0.25, 1, 0.125, -1}, []float64{1, -0.5, 0.75, 0.5, -0.5}
	want := correlation(x, y, 0)
	if want < 0.5 || want > 0.95 {
		t.Fatalf("correlation = %g, not one to tell anything by", want)
	}
	scaled := func(x []float64, by float64) []float64 { return floats.ScaleTo(make([]float64, len(x)), by, x) }
	for _, by := range [][2]float64{{1e-140, 1e-140}, {1e-120, 1e-3}, {1e140, 1e140}, {1e-140, 1e140}} {
		if got := correlation(scaled(x, by[0]), scaled(y, by[1]), 0); !(math.Abs(got-want) < 1e-9) {
			t.Errorf("at %g and %g of the level: %g, want %g", by[0], by[1], got, want)
		}
	}
}
