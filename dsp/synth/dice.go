package synth

import (
	"math"
	"math/rand/v2"
)

// dice draws the properties of things. Equal seeds draw equal things.
type dice struct{ *rand.Rand }

// newDice starts the stream of draws with the given number under a seed.
func newDice(seed, stream uint64) dice {
	return dice{rand.New(rand.NewPCG(seed, stream))}
}

// between draws evenly from lo to hi.
func (d dice) between(lo, hi float64) float64 { return lo + (hi-lo)*d.Float64() }

// scale draws evenly on a logarithmic scale from lo to hi, both above 0.
func (d dice) scale(lo, hi float64) float64 { return lo * math.Pow(hi/lo, d.Float64()) }

// chance is true with probability p.
func (d dice) chance(p float64) bool { return d.Float64() < p }

// normal draws from a normal distribution cut at three standard deviations, so
// that no single draw leaves what a mechanism can do.
func (d dice) normal() float64 {
	for {
		if z := d.NormFloat64(); math.Abs(z) <= 3 {
			return z
		}
	}
}

// near draws from about x with a relative standard deviation.
func (d dice) near(x, rel float64) float64 { return x * (1 + rel*d.normal()) }

// count draws a whole number from lo to hi, both possible.
func (d dice) count(lo, hi int) int { return lo + d.IntN(hi-lo+1) }

// gain turns a level in dB into a factor of amplitude.
func gain(dB float64) float64 { return math.Pow(10, dB/20) }

// decibels turns a factor of amplitude, above 0, into a level in dB.
func decibels(g float64) float64 { return 20 * math.Log10(g) }
