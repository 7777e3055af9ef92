package align

import (
	"math"
	"testing"

	"earshot/dsp/internal/num"
)

// What a codec spreads before some of the sounds is in their mean as well, and draws
// the pick there; most of the single picks are where they should be.
func TestWhatOnlySomeSoundsHaveBeforeThemIsPartOfTheUncertainty(t *testing.T) {
	const spreadOver = 48 // samples
	place := func(spoiled int) (off, bias float64) {
		spread := hiss(spreadOver)
		at := instants(9)
		src := scene(0.0001, at, func(i int, t float64) float64 {
			x := 0.3 * thud(t, 1500, 3100, 5600)
			if i < spoiled {
				x += 0.03 * spread(i, t+spreadOver)
			}
			return x
		})
		m := locate(t, src, at)
		var errors []float64
		for i := range at {
			errors = append(errors, m.Start.At[i]-at[i])
		}
		return num.Median(errors), m.Start.Bias
	}
	clearOff, clear := place(0)
	if clear > 1.2 || math.Abs(clearOff) > 2 {
		t.Errorf("with nothing before them sounds are %.1f samples off, said to be ± %.2f; want less than 1.2", clearOff, clear)
	}
	off, said := place(3)
	if math.Abs(off) < 6 {
		t.Fatalf("the pick is not drawn away: %.1f samples off", off)
	}
	if math.Abs(off) > 1.96*said {
		t.Errorf("a pick %.1f samples off is said to be ± %.1f", off, said)
	}
}
