package timing

import (
	"math"

	"earshot/shutter"
)

// Smear adds to the uncertainty of each duration what a recording does to all onsets of
// a clip alike: u, a standard uncertainty in s. It is one error of the clip, so it does
// not average out over firings.
func Smear(firings []shutter.Firing, u float64) {
	for i := range firings {
		if f := &firings[i]; f.Closed {
			f.U, f.Common = math.Hypot(f.U, u), math.Hypot(f.Common, u)
		}
	}
}

// Levelled takes from the firings how their blades compare with each other and whether
// they bounced: for a clip whose recorder turned itself down at loud sounds, and up
// again, which makes all of that its own doing as much as the blades'.
func Levelled(firings []shutter.Firing) {
	for i := range firings {
		f := &firings[i]
		for _, b := range []*shutter.Blades{&f.Opening, &f.Closing} {
			b.Strength, b.Drawn = 0, 0
		}
		f.Bounce = 0
	}
}
