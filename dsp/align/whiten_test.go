package align

import (
	"math"
	"math/rand/v2"
	"testing"

	"earshot/dsp/internal/num"
)

// A first-order autoregression has the autocorrelation a at a lag of one sample
// (G. E. P. Box and G. M. Jenkins, Time Series Analysis, 3.2.3; from memory).
func TestWhatNoiseCarriesOverIsTakenOutOfIt(t *testing.T) {
	for _, a := range []float64{0.95, 0.5, 0, -0.5} {
		rng, x := rand.New(rand.NewPCG(61, 62)), make([]float64, 4000)
		for k := 1; k < len(x); k++ {
			x[k] = a*x[k-1] + rng.NormFloat64()
		}
		all := &aligned{rate: 48000, x: [][]float64{x}, shift: []float64{3500}}
		w := pickWindow{from: -3000, to: 0, otherwise: 24}
		w.carried = all.carried(w)
		if math.Abs(w.carried-a) > 0.05 {
			t.Errorf("of %g of each sample in the next %.3f is found", a, w.carried)
		}
		if left := num.MeanSquare(whitened(w.cut(x, 3500), w.carried)); math.Abs(left-1) > 0.1 {
			t.Errorf("with %g carried over a power of %.3f is left, want 1", a, left)
		}
	}
}

func TestSilenceCarriesNothingOver(t *testing.T) {
	all := &aligned{rate: 48000, x: [][]float64{make([]float64, 900)}, shift: []float64{700}}
	if c := all.carried(pickWindow{from: -96, to: 24}); c != 0 {
		t.Errorf("silence carries %g over", c)
	}
}

// The noise of a room is strong and slow: in the mean of some sounds it swings for a
// while before their onset now and then, and covers how they begin.
func TestSlowNoiseNeitherDrawsNorDelaysAnOnset(t *testing.T) {
	const sounds, clips = 7, 40
	at := instants(sounds)
	var off []float64
	for seed := range uint64(clips) {
		src := scene(0, at, func(_ int, t float64) float64 { return 0.02 * thud(t, 3300, 5100, 7600) })
		rng, slow := rand.New(rand.NewPCG(seed, 51)), 0.0
		for k := range src.Frames {
			slow = 0.97*slow + 0.0006*rng.NormFloat64()
			src.Frames[k] += slow
		}
		m := locate(t, src, at)
		var errors []float64
		for i := range at {
			errors = append(errors, m.Start.At[i]-at[i])
		}
		off = append(off, num.Median(errors))
	}
	worst := 0.0
	for _, v := range off {
		worst = max(worst, math.Abs(v-num.Median(off)))
	}
	if worst > 3.5 || math.Abs(num.Median(off)) > 2 {
		t.Errorf("onsets are %.2f samples off, and in some clip %.2f more; want less than 2 and 3.5", num.Median(off), worst)
	}
}
