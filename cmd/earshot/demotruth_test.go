package main

import (
	"math"
	"testing"

	"earshot/dsp/synth"
	"earshot/shutter"
	"earshot/shutter/hear"
)

// The demo is what a newcomer judges the program by: what it prints must be true. A
// firing may be off by what it says of itself, or by 0.2 ms, a fiftieth of a stop at
// 1/30; one that hung has no duration to compare.
func TestEveryDemoFiringIsTimedAsItWasMade(t *testing.T) {
	t.Parallel()
	const tolerance, same = 0.0002, 0.02 // s
	for i, lens := range synth.Demo(demoSeed) {
		if lens.Spoilt || testing.Short() && i%8 > 0 {
			continue
		}
		t.Run(lens.File, func(t *testing.T) {
			clip, err := lens.Recording.Clip()
			if err != nil {
				t.Fatal(err)
			}
			all, err := hear.Clip(t.Context(), clip, hear.Options{Kind: shutter.Leaf})
			if err != nil {
				t.Fatal(err)
			}
			for i, made := range clip.Truth.Firings {
				if !made.Closes {
					continue
				}
				heard := nearestOpening(all.Firings, made.Open.Start)
				if math.Abs(heard.Open-made.Open.Start) > same {
					t.Errorf("firing %d at %.3f s: not heard", i+1, made.Open.Start)
					continue
				}
				want := made.Duration()
				if heard.Edge == shutter.EdgeStop {
					want = made.StopToStop()
				}
				if off := heard.Duration() - want; math.Abs(off) > max(tolerance, 3*heard.U) {
					t.Errorf("firing %d: %.2f ms by the %s, want %.2f (u %.3f ms)", i+1, 1000*heard.Duration(), heard.Edge, 1000*want, 1000*heard.U)
				}
			}
		})
	}
}

func nearestOpening(firings []shutter.Firing, at float64) (nearest shutter.Firing) {
	for _, f := range firings {
		if math.Abs(f.Open-at) < math.Abs(nearest.Open-at) {
			nearest = f
		}
	}
	return nearest
}
