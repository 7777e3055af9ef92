package describe

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// Bounds of what a repetition is looked for by.
const (
	repeatLikeness = 0.25 // correlation from which a foreground repeats itself
	repeatFirst    = 0.75 // of the best correlation: the shortest time that has so much is the one,
	repeatHalf     = 0.3  // or half of the best, which need have no more, for every other sound may differ
)

// Repetition is how often a second the foreground repeats itself from value first
// to before value end, and how well, from 0 to 1: the shortest time, within the
// bounds in repetitions a second, at which its autocorrelation is near its largest.
// It is 0, 0 where it does not repeat itself.
func (f *Foreground) Repetition(first, end int, slowest, fastest float64) (rate, likeness float64) {
	x := f.course(first, end)
	lo, hi := int(f.Values(1/fastest)), int(math.Ceil(f.Values(1/slowest)))
	if lo < 1 || hi+1 >= len(x)/2 {
		hi = len(x)/2 - 2
	}
	if lo < 1 || hi <= lo {
		return 0, 0
	}
	r := make([]float64, hi+2)
	for lag := lo - 1; lag < len(r); lag++ {
		r[lag] = correlation(x, x, lag)
	}
	best := lo
	for lag := lo; lag <= hi; lag++ {
		if peaks(r, lag) && (r[lag] > r[best] || !peaks(r, best)) {
			best = lag
		}
	}
	if !peaks(r, best) || r[best] < repeatLikeness {
		return 0, 0
	}
	best = firstPeak(r, lo, best, func(lag int) bool { return r[lag] >= repeatFirst*r[best] })
	best = firstPeak(r, lo, best, func(lag int) bool { return halves(lag, best) && r[lag] >= repeatHalf*r[best] })
	at := float64(best) + (r[best-1]-r[best+1])/(2*(r[best-1]-2*r[best]+r[best+1]))
	return 1 / f.Seconds(at), r[best]
}

// halves tells whether a lag is half of another, to a twelfth.
func halves(lag, of int) bool { return math.Abs(float64(2*lag-of)) <= float64(of)/12+1 }

// firstPeak is the first lag from lo on at which r peaks and that will do, best where
// there is none before.
func firstPeak(r []float64, lo, best int, will func(lag int) bool) int {
	for lag := lo; lag < best; lag++ {
		if peaks(r, lag) && will(lag) {
			return lag
		}
	}
	return best
}

// peaks tells whether r is larger at i than beside it.
func peaks(r []float64, i int) bool { return r[i] > r[i-1] && r[i] >= r[i+1] }

// course is the amplitude of a part of the foreground without its linear trend. It is smoothed,
// so that a repetition between two values is not lost.
func (f *Foreground) course(first, end int) []float64 {
	x := make([]float64, 0, end-first)
	var sum, slope, squares float64
	middle := float64(end-first-1) / 2
	for i, v := range f.Over[first:end] {
		a, t := math.Sqrt(v), float64(i)-middle
		x = append(x, a)
		sum, slope, squares = sum+a, slope+a*t, squares+t*t
	}
	for i := range x {
		x[i] -= sum/float64(len(x)) + slope/math.Max(squares, 1)*(float64(i)-middle)
	}
	smooth := x[:max(0, len(x)-2)]
	for i := range smooth {
		smooth[i] = x[i]/4 + x[i+1]/2 + x[i+2]/4
	}
	return smooth
}

// correlation is the normalised correlation of x[k+lag] with y[k].
func correlation(x, y []float64, lag int) float64 {
	from, to := max(0, -lag), min(len(y), len(x)-lag)
	if from >= to {
		return -1
	}
	xs, ys := x[from+lag:to+lag], y[from:to]
	xx, yy := floats.Dot(xs, xs), floats.Dot(ys, ys)
	if xx == 0 || yy == 0 {
		return -1
	}
	return floats.Dot(xs, ys) / math.Sqrt(xx) / math.Sqrt(yy) // xx·yy may be too small for a float
}
