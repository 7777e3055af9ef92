package timing

import (
	"testing"

	"earshot/shutter"
)

// bladesTest is a firing whose opening was heard.
func bladesTest(duration, level float64) shutter.Firing {
	return shutter.Firing{Close: duration, Closed: true, Opening: shutter.Blades{Level: level, Lead: 0.0015}}
}

// In a firing of 4 ms the blades have not struck when half of it is over: what is heard of
// the opening by then is its soft start, and no weaker than that of any other.
func TestAnOpeningThatCannotHaveStruckYetIsNotCompared(t *testing.T) {
	firings := []shutter.Firing{bladesTest(0.06, -23), bladesTest(0.03, -22), bladesTest(0.016, -24), bladesTest(0.008, -23), bladesTest(0.004, -35)}
	missStrikes(firings, 0.003) // after which most openings strike
	compareBlades(firings, func(f *shutter.Firing) *shutter.Blades { return &f.Opening })
	for i, want := range []float64{0, 1, -1, 0} {
		if b := firings[i].Opening; b.Strength != want || b.Drawn != 1 {
			t.Errorf("firing %d: %+v, want a strength of %v dB and drawn as the others are", i, b, want)
		}
	}
	if b := firings[4].Opening; b != (shutter.Blades{}) {
		t.Errorf("the fast firing: %+v, want nothing measured", b)
	}
}
