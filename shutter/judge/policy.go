package judge

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Policy holds the limits a shutter is judged by. They are a house's own, not a
// standard's tolerances: ISO 516 gives its own as targets for good pictures, not
// for inspection.
type Policy struct {
	Name          string
	House         string  // whose limits they are; may be empty
	Good          float64 // stops of mean deviation within which a speed is good
	Service       float64 // stops of mean deviation beyond which service is advised
	SpreadGood    float64 // stops of spread at three firings within which it repeats well
	SpreadService float64 // stops of spread at three firings beyond which it is erratic
	ClockPPM      float64 // half-width of what is not known of the recorder's clock, rectangular, 1e-6
	ClockError    float64 // what is known of it, + is fast, 1e-6: taken out of every deviation
	EdgeMS        float64 // half-width of the edge term, rectangular, ms
}

// Standard is the policy used unless another is asked for.
func Standard() Policy {
	return Policy{Name: "standard", Good: 1.0 / 3, Service: 1.0 / 2, SpreadGood: 1.0 / 6, SpreadService: 1.0 / 3, ClockPPM: 100, EdgeMS: 2}
}

// NegativeFilm is the policy for a camera that will only see negative film.
func NegativeFilm() Policy {
	return Policy{Name: "negative-film", Good: 1.0 / 2, Service: 1, SpreadGood: 1.0 / 6, SpreadService: 1.0 / 3, ClockPPM: 100, EdgeMS: 2}
}

// ErrPolicy is for limits that nothing can be judged by.
var ErrPolicy = errors.New("limits that make no policy")

// Check says what is wrong with the limits; its errors wrap [ErrPolicy].
func (p Policy) Check() error {
	for _, l := range []struct {
		name        string
		x, from, to float64
	}{
		{"good", p.Good, 0.01, 4}, {"service", p.Service, 0.01, 4},
		{"spread good", p.SpreadGood, 0.01, 4}, {"spread service", p.SpreadService, 0.01, 4},
		{"clock", p.ClockPPM, 0, 1e4}, {"clock error", p.ClockError, -1e4, 1e4}, {"edge", p.EdgeMS, 0, 20},
	} {
		if !(l.x >= l.from && l.x <= l.to) {
			return fmt.Errorf("%w: %s of %g, allowed are %g to %g", ErrPolicy, l.name, l.x, l.from, l.to)
		}
	}
	switch {
	case p.Good > p.Service:
		return fmt.Errorf("%w: good reaches to %g stop and service begins at %g", ErrPolicy, p.Good, p.Service)
	case p.SpreadGood > p.SpreadService:
		return fmt.Errorf("%w: a good spread reaches to %g stop and service begins at %g", ErrPolicy, p.SpreadGood, p.SpreadService)
	}
	return nil
}

// fast is how much longer in stops everything comes out by the recorder's clock.
func (p Policy) fast() float64 { return math.Log2(1 + p.ClockError*1e-6) }

// PolicyNamed returns the built-in policy of a name; its errors wrap [ErrPolicy].
func PolicyNamed(name string) (Policy, error) {
	standard, film := Standard(), NegativeFilm()
	for _, p := range []Policy{standard, film} {
		if p.Name == name {
			return p, nil
		}
	}
	return Policy{}, fmt.Errorf("%w: %q is not built in, known are %s and %s", ErrPolicy, name, standard.Name, film.Name)
}

// rangeLevel is the share of ranges of healthy scatter that stays within a
// spread limit's multiple of the standard deviation.
const rangeLevel = 0.99

// SpreadLimits returns the spreads in stops within which n firings repeat well,
// and beyond which they are erratic. The policy states both for three firings;
// for n they are multiplied by q(n)/q(3), q the 99 % point of the range of n
// standard normals, so that firing more often is not punished. Both are 0 for
// n < 2, where there is no spread.
func (p Policy) SpreadLimits(n int) (good, service float64) {
	scale := rangeQuantile(rangeLevel, n) / rangeQuantile(rangeLevel, 3)
	return p.SpreadGood * scale, p.SpreadService * scale
}

// rangeQuantile returns the point that the range of n independent standard
// normals stays below with probability p in (0, 1): the studentized range at
// infinite degrees of freedom. It is 0 for n < 2. Newton's steps are kept between
// bounds that close in on the point.
func rangeQuantile(p float64, n int) float64 {
	if n < 2 {
		return 0
	}
	lo, hi := 0.0, 16.0 // the range of a million normals stays below 16
	w := 4.0
	for hi-lo > 1e-9 {
		below, density := rangeDistribution(w, n)
		if below < p {
			lo = w
		} else {
			hi = w
		}
		step := (p - below) / density
		if math.Abs(step) < 1e-10 {
			break
		}
		if w += step; !(w > lo && w < hi) {
			w = (lo + hi) / 2
		}
	}
	return w
}

// rangeDistribution returns the probability that the range of n ≥ 2 standard
// normals is at most w, n ∫ φ(z) (Φ(z+w) − Φ(z))ⁿ⁻¹ dz, and its derivative by w.
// The trapezoidal rule converges faster than any power of the step on integrands
// that die away at both ends as these do.
func rangeDistribution(w float64, n int) (below, density float64) {
	const step, reach = 1.0 / 4, 8.0
	for z := -reach; z <= reach; z += step {
		inside := distuv.UnitNormal.CDF(z+w) - distuv.UnitNormal.CDF(z)
		but2 := distuv.UnitNormal.Prob(z) * math.Pow(inside, float64(n-2))
		below += but2 * inside
		density += but2 * distuv.UnitNormal.Prob(z+w)
	}
	return float64(n) * below * step, float64(n) * float64(n-1) * density * step
}
