package dsp

import (
	"math"
	"testing"

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
