// Package clock tells how far a recorder's clock is off, from a recording of a clock
// that ticks evenly.
//
// [Of] takes the onsets of everything heard in the clip, by the recorder's own clock:
// which of them are ticks is found first ([Of] folds time at twice the beat, since tick
// and tock may differ), then a straight line through the ticks is fitted, whose slope is
// the error. Ticks may be missing or doubled, and other sounds among them.
package clock

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// What can be wrong with a recording of ticks.
var (
	ErrTooShort = errors.New("too few ticks")
	ErrNoBeat   = errors.New("no steady ticking")
)

const (
	fewest  = 20   // ticks that a line is drawn through
	present = 0.6  // share of the ticks that must be heard
	largest = 1e-3 // largest error looked for: crystals keep to 1e-4 (common practice, no source)
)

// Rate is how fast the recorder's clock runs.
type Rate struct {
	PPM     float64 // + is fast: what it times comes out too long
	U95     float64 // 95 % half-width of PPM, ppm, the ticking clock taken for right
	Ticks   int     // that the line rests on
	Missed  int     // expected between the first and the last, and not among those
	Others  int     // other sounds
	Scatter float64 // standard deviation of the ticks about the line, s
	Uneven  float64 // how much later than in the middle a tick falls after its tock, or the other way round, s
}

// Of returns the rate of the clock by which the onsets, in s and ascending, were timed,
// where something ticks every so many s. Errors wrap [ErrTooShort] or [ErrNoBeat].
func Of(onsets []float64, every float64) (Rate, error) {
	if !(every > 0) || math.IsInf(every, 0) {
		panic("clock: ticks without a beat")
	}
	if len(onsets) < fewest {
		return Rate{}, fmt.Errorf("%w: %d sounds, and %d ticks are wanted", ErrTooShort, len(onsets), fewest)
	}
	expected := (onsets[len(onsets)-1] - onsets[0]) / every
	if expected < fewest {
		return Rate{}, fmt.Errorf("%w: %.0f s at one each %g s make %.0f, and %d are wanted", ErrTooShort, onsets[len(onsets)-1]-onsets[0], every, expected, fewest)
	}
	since := make([]float64, len(onsets)) // the first, lest the clip's beginning decide between equals
	for i, t := range onsets {
		since[i] = t - onsets[0]
	}
	tick, tock, rough := ticks(since, every)
	l := trimmed(tick, tock)
	heard := l.n()
	if heard < fewest || float64(rough) < present*expected {
		return Rate{}, fmt.Errorf("%w every %g s: %d of some %.0f ticks were found", ErrNoBeat, every, rough, expected)
	}
	t := distuv.StudentsT{Sigma: 1, Nu: float64(l.df())}.Quantile(0.975)
	return Rate{
		PPM: 1e6 * l.slope / every, U95: 1e6 * t * l.uSlope() / every,
		Ticks: heard, Missed: max(0, int(math.Round(l.span()))+1-heard), Others: len(onsets) - heard,
		Scatter: l.s(), Uneven: l.offset(),
	}, nil
}
