package shutter

import "math"

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
		inside := normalCDF(z+w) - normalCDF(z)
		but2 := normalDensity(z) * math.Pow(inside, float64(n-2))
		below += but2 * inside
		density += but2 * normalDensity(z+w)
	}
	return float64(n) * below * step, float64(n) * float64(n-1) * density * step
}

// normalDensity is φ, the density of the standard normal.
func normalDensity(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }

// normalCDF is Φ, the distribution function of the standard normal.
func normalCDF(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }
