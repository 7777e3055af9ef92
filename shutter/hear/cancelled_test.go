package hear_test

import (
	"context"
	"errors"
	"math/rand/v2"
	"testing"
	"time"

	"earshot/dsp"
	"earshot/dsp/synth"
	"earshot/shutter"
	"earshot/shutter/hear"
)

// busy is a clip that takes seconds to make sense of: taps that are hardly unlike each
// other, so often that a great many pairs of them may be firings.
func busy(seconds int) dsp.Source {
	const rate, loop = 48000, 30
	rng := rand.New(rand.NewPCG(1, 2))
	x := make([]float64, loop*rate)
	for i := range x {
		x[i] = 1e-4 * rng.NormFloat64()
	}
	for at := 0.1; at < loop-0.1; at += 0.15 + 0.2*rng.Float64() {
		loud := 0.2 + 0.2*rng.Float64()
		for i := range 480 {
			loud *= 0.985
			x[int(at*rate)+i] += loud * rng.NormFloat64()
		}
	}
	return synth.Loop(dsp.Format{Rate: rate, Channels: 1}, x, int64(seconds)*rate)
}

func TestXX(t *testing.T) {
	for _, s := range []int{60, 600} {
		src := busy(s)
		t0 := time.Now()
		h, err := dsp.Listen(src)
		if err != nil {
			t.Fatal(err)
		}
		t1 := time.Now()
		r, err := hear.Find(context.Background(), h, src, hear.Options{Kind: shutter.Leaf})
		t.Log(s, len(h.Transients), t1.Sub(t0), time.Since(t1), len(r.Firings), err)
	}
	_ = errors.Is
}
