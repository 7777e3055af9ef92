package judge

import (
	"maps"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"earshot/shutter"
)

// normal95 is the half-width of the middle 95 % of the standard normal, and
// rectangular95 that of a rectangle of half-width 1.
const (
	normal95      = 1.959963984540054
	rectangular95 = 0.95
)

// scatter is a standard deviation in stops with its degrees of freedom. With none
// it is not known.
type scatter struct {
	s  float64
	df int
}

// scatterOf returns the scatter of deviations about their own mean.
func scatterOf(x []float64) scatter { return scatter{s: shutter.SD(x), df: max(0, len(x)-1)} }

// pooledWith returns the scatter of both, each weighted by its degrees of freedom.
func (a scatter) pooledWith(b scatter) scatter {
	df := a.df + b.df
	if df == 0 {
		return scatter{}
	}
	squares := float64(a.df)*a.s*a.s + float64(b.df)*b.s*b.s
	return scatter{s: math.Sqrt(squares / float64(df)), df: df}
}

// halfWidth returns the 95 % half-width of a mean of n: t·s/√n with Student's t
// for the degrees of freedom of s (JCGM 100:2008, G.3); 0 where s is not known.
func (a scatter) halfWidth(n int) float64 {
	if a.df == 0 || n == 0 {
		return 0
	}
	return studentT(a.df) * a.s / math.Sqrt(float64(n))
}

// studentT returns the t that Student's distribution stays within, on both sides
// of 0, with probability 0.95.
func studentT(df int) float64 {
	return distuv.StudentsT{Sigma: 1, Nu: float64(df)}.Quantile(0.975)
}

// pools returns the scatter of the speeds with buzz, and of those without.
// Speeds with a symptom are left out: their scatter is not that of a shutter in
// order.
func (j *judging) pools() (buzzing, silent scatter) {
	for _, t := range j.trials {
		switch {
		case len(t.speed.Symptoms) > 0:
		case t.buzz:
			buzzing = buzzing.pooledWith(scatterOf(t.x))
		default:
			silent = silent.pooledWith(scatterOf(t.x))
		}
	}
	return buzzing, silent
}

// scatterFor returns the pooled scatter, or the speed's own where that is larger
// or nothing is pooled.
func (t *trial) scatterFor(pooled scatter) scatter {
	own := scatterOf(t.x)
	if pooled.df == 0 || own.df > 0 && own.s > pooled.s {
		return own
	}
	return pooled
}

// budget returns the terms of U95 of a mean deviation. The policy's edge and clock
// belong to the lens and to the recorder, so they do not shrink with n.
func (t *trial) budget(p Policy, duration float64) Budget {
	b := p.systematic(duration)
	b.Repeatability = t.scatter.halfWidth(len(t.x))
	b.Onset = normal95 * ofMean(t.onsets).after(1)
	return b
}

// systematic returns the terms of the policy alone for a duration in s. They remain if the
// firings agree perfectly.
func (p Policy) systematic(duration float64) Budget {
	return Budget{
		Clock: rectangular95 * p.ClockPPM * 1e-6 / math.Ln2,
		Edge:  rectangular95 * shutter.StopsOf(p.EdgeMS*1e-3, duration),
	}
}

// u95 returns the expanded uncertainty at 95 %: the root sum of squares of the
// terms, each its own 95 % half-width.
func (b Budget) u95() float64 {
	return math.Hypot(math.Hypot(b.Repeatability, b.Onset), b.systematic())
}

// systematic returns what firing more often does not reduce.
func (b Budget) systematic() float64 { return math.Hypot(b.Clock, b.Edge) }

// onsetError is how far the onsets may put a deviation off, as standard
// uncertainties in stops.
type onsetError struct {
	clip   int
	own    float64 // by an error of the firing alone
	common float64 // by one that all firings of the clip share
}

// onsetErrorOf returns that of a firing with a duration.
func onsetErrorOf(f shutter.Firing) onsetError {
	own := math.Sqrt((f.U - f.Common) * (f.U + f.Common))
	return onsetError{clip: f.Clip, own: shutter.StopsOf(own, f.Duration()), common: shutter.StopsOf(f.Common, f.Duration())}
}

// meanError is how far the onsets may put a mean off, as standard uncertainties in stops. The
// error of single firings averages out over firings. The error that the firings of a clip
// share averages out over clips only.
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

// after returns the standard uncertainty of the mean with that many times the firings in the
// same clips.
func (e meanError) after(times float64) float64 {
	return math.Hypot(e.own/math.Sqrt(times), e.common)
}
