package shutter_test

import (
	"fmt"
	"testing"

	"earshot/dsp/synth"
)

// Alone, speeds too fast to tell both ends apart are mostly not found. But the time
// from winding to releasing, or from one release to the next, is none the less no firing.
func TestNoWaitIsTakenForAFiringWhereAllAreFast(t *testing.T) {
	t.Parallel()
	wantRight(t, 1, func(seed uint64) (mistakes []string) {
		src, _ := recorded(t, seed, take(leaf(seed), synth.Fire(synth.Modern()[6:9], 3)))
		for _, f := range hear(t, src, 0) {
			if f.Closed && f.Duration() > 0.1 {
				mistakes = append(mistakes, fmt.Sprintf("heard from %.3f to %.3f s", f.Open, f.Close))
			}
		}
		return mistakes
	})
}
