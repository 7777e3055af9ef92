package hear_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"earshot/dsp/synth"
	"earshot/shutter"
)

// Speeds too fast to hear both ends apart are found by what the slowest of them teach,
// unless even these are one sound.
func TestFastFiringsAreFoundAlone(t *testing.T) {
	t.Parallel()
	const near = 0.001 // s
	wantRight(t, 0.6, func(seed uint64) (mistakes []string) {
		src, truth := recorded(t, seed, take(leaf(seed), synth.Fire(synth.Modern()[6:9], 3)))
		right := 0
		for _, f := range heardIn(t, src, 0) {
			if slices.ContainsFunc(truth.Firings, func(want synth.Firing) bool {
				return math.Abs(f.Open-want.Open.Start) < 10*near && math.Abs(f.Duration()-want.Close.Start+want.Open.Start) < near
			}) {
				right++
			} else {
				mistakes = append(mistakes, fmt.Sprintf("%.1f ms at %.3f s, and none was fired", 1e3*f.Duration(), f.Open))
			}
		}
		if right < 6 {
			mistakes = append(mistakes, fmt.Sprintf("%d firings of %d", right, len(truth.Firings)))
		}
		return mistakes
	})
}

// The time from winding to releasing, or from one release to the next, is none the less no firing.
func TestNoWaitIsTakenForAFiringWhereAllAreFast(t *testing.T) {
	t.Parallel()
	wantRight(t, 1, func(seed uint64) (mistakes []string) {
		src, _ := recorded(t, seed, take(leaf(seed), synth.Fire(synth.Modern()[6:9], 3)))
		for _, f := range heardIn(t, src, 0) {
			if f.Closed && f.Duration() > 0.1 {
				mistakes = append(mistakes, fmt.Sprintf("heard from %.3f to %.3f s", f.Open, f.Close))
			}
		}
		return mistakes
	})
}

// Where it is in doubt which part of a movement its end stop is, it is so for firings whose
// ends are one sound as for those that taught them.
func TestFastFiringsAreNoFurtherOffThanTheySay(t *testing.T) {
	t.Parallel()
	wantRight(t, 0.9, func(seed uint64) (mistakes []string) {
		src, truth := recorded(t, seed, take(leaf(seed), synth.Fire(synth.Modern()[6:9], 3)))
		for _, f := range heardIn(t, src, 0) {
			for _, want := range truth.Firings {
				length := want.Close.Start - want.Open.Start
				if f.Edge == shutter.EdgeStop {
					length = want.Close.Stop - want.Open.Stop
				}
				off := math.Abs(f.Duration() - length)
				if math.Abs(f.Open-want.Open.Start) < 0.01 && off > 3*f.U {
					mistakes = append(mistakes, fmt.Sprintf("%.2f ms off at %.3f s, and u %.2f ms", 1e3*off, f.Open, 1e3*f.U))
				}
			}
		}
		return mistakes
	})
}
