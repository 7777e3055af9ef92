package shutter

import (
	"maps"
	"math"
	"slices"
)

// onsetError is how far the onsets may put a deviation off, as standard
// uncertainties in stops.
type onsetError struct {
	clip   int
	own    float64 // by an error of the firing alone
	common float64 // by one that all firings of the clip share
}

// onsetErrorOf returns that of a firing with a duration.
func onsetErrorOf(f Firing) onsetError {
	own := math.Sqrt((f.U - f.Common) * (f.U + f.Common))
	return onsetError{clip: f.Clip, own: stopsOf(own, f.Duration()), common: stopsOf(f.Common, f.Duration())}
}

// meanError is how far the onsets may put a mean off, as standard uncertainties in
// stops. What spoils single firings averages out over them; what the firings of a
// clip share averages out over clips only.
type meanError struct{ own, common float64 }

// ofMean returns the error of the mean of the deviations. The errors of different
// firings and of different clips are independent, so their squares add; those that
// a clip shares are one error, so they add themselves (JCGM 100:2008, 5.2.2 note 1).
func ofMean(errors []onsetError) meanError {
	n := float64(len(errors))
	var own float64
	clips := map[int]float64{}
	for _, e := range errors {
		own = math.Hypot(own, e.own/n)
		clips[e.clip] += e.common / n
	}
	var squares float64
	for _, clip := range slices.Sorted(maps.Keys(clips)) { // in order, so that the sum is the same to the last digit
		squares += clips[clip] * clips[clip]
	}
	return meanError{own: own, common: math.Sqrt(squares)}
}

// after returns the standard uncertainty of the mean of so many times as many
// firings in the same clips.
func (e meanError) after(times float64) float64 {
	return math.Hypot(e.own/math.Sqrt(times), e.common)
}
