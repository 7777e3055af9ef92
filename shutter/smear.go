package shutter

import "math"

// Smear adds to the uncertainty of each duration what a recording does to all onsets of
// a clip alike: u, a standard uncertainty in s. It is one error of the clip, so it does
// not average out over firings.
func Smear(firings []Firing, u float64) {
	for i := range firings {
		if f := &firings[i]; f.Closed {
			f.U, f.Common = math.Hypot(f.U, u), math.Hypot(f.Common, u)
		}
	}
}
