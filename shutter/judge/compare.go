package judge

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// The limits of comparing two sittings.
const (
	changeStops = 1.0 / 6 // smallest change of a speed that is called one, stops
	changeLevel = 0.05    // of a false change anywhere on the dial, from scatter alone
)

// Sitting is what one sitting found of one speed, as far as a comparison needs it.
type Sitting struct {
	Deviation float64 // mean, stops
	N         int     // firings in the mean
	Scatter   float64 // standard deviation the mean's repeatability is reckoned from, stops
	DF        int     // its degrees of freedom, 0 where it is not known
	Budget    Budget  // of the mean
}

// Change is how far a speed lies from where it lay before, in stops; + is slower.
type Change struct {
	Stops float64
	U95   float64 // 95 % half-width
	P     float64 // of so large a change from scatter alone, corrected for the number of speeds
	// Real is true if neither scatter nor the rest of U95 explains the change, and it is
	// large enough to matter.
	Real bool
}

// Compare says what changed at each of a shutter's speeds. Scatter is tested by
// Welch's test (B. L. Welch, Biometrika 34, 1947). Its P is corrected by Holm's procedure
// (S. Holm, Scand. J. Statist. 6, 1979), since one of many speeds is easily off by chance. If
// the set-up was the same, so is the edge term, and it drops out of the difference. If the
// scatter of a speed is not known in both, it has no U95, and P is 1.
func Compare(before, after []Sitting, sameSetUp bool) []Change {
	if len(before) != len(after) {
		panic("judge: sittings of different speeds are compared")
	}
	changes := make([]Change, len(before))
	p := make([]float64, len(before))
	for i := range before {
		changes[i], p[i] = changeOf(before[i], after[i], sameSetUp)
	}
	for i, corrected := range holm(p) {
		c := &changes[i]
		c.P = corrected
		size := math.Abs(c.Stops)
		c.Real = c.U95 > 0 && corrected <= changeLevel && size >= changeStops && size > c.U95
	}
	return changes
}

func changeOf(a, b Sitting, sameSetUp bool) (Change, float64) {
	c := Change{Stops: b.Deviation - a.Deviation}
	if a.DF == 0 || b.DF == 0 || a.N == 0 || b.N == 0 {
		return c, 1
	}
	w := welchOf(scatter{a.Scatter, a.DF}, a.N, scatter{b.Scatter, b.DF}, b.N)
	c.U95 = w.halfWidth()
	for _, s := range []Sitting{a, b} {
		c.U95 = math.Hypot(c.U95, math.Hypot(s.Budget.Onset, s.Budget.Clock))
		if !sameSetUp {
			c.U95 = math.Hypot(c.U95, s.Budget.Edge)
		}
	}
	return c, w.probability(c.Stops)
}

// welch is the standard error of a difference of two means and its degrees of freedom (Welch
// and Satterthwaite).
type welch struct{ se, df float64 }

func welchOf(a scatter, n int, b scatter, m int) welch {
	va, vb := a.s*a.s/float64(n), b.s*b.s/float64(m)
	if va+vb == 0 {
		return welch{df: float64(a.df + b.df)}
	}
	df := (va + vb) * (va + vb) / (va*va/float64(a.df) + vb*vb/float64(b.df))
	return welch{se: math.Sqrt(va + vb), df: df}
}

func (w welch) student() distuv.StudentsT { return distuv.StudentsT{Sigma: 1, Nu: w.df} }

func (w welch) halfWidth() float64 { return w.student().Quantile(0.975) * w.se }

// probability is that of a difference at least so large, either way, where there is none.
func (w welch) probability(difference float64) float64 {
	switch {
	case difference == 0:
		return 1
	case w.se == 0:
		return 0
	}
	return 2 * w.student().Survival(math.Abs(difference)/w.se)
}

// holm returns each probability corrected for the number of them.
func holm(p []float64) []float64 {
	order := make([]int, len(p))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(p[a], p[b]) })
	corrected := make([]float64, len(p))
	largest := 0.0
	for rank, i := range order {
		largest = max(largest, math.Min(1, p[i]*float64(len(p)-rank)))
		corrected[i] = largest
	}
	return corrected
}
