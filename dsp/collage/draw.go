package collage

import (
	"hash/fnv"
	"math"
	"math/rand/v2"
)

// draw is where a clip gets its chances from.
type draw struct{ *rand.Rand }

// newDraw gives each kind chances of its own, so that seeds of two kinds have nothing in
// common.
func newDraw(kind string, seed uint64) draw {
	h := fnv.New64a()
	h.Write([]byte(kind))
	return draw{rand.New(rand.NewPCG(seed, h.Sum64()))}
}

// between is even over lo..hi.
func (d draw) between(lo, hi float64) float64 { return lo + (hi-lo)*d.Float64() }

// ratio is even in the logarithm over lo..hi, both above 0.
func (d draw) ratio(lo, hi float64) float64 { return lo * math.Pow(hi/lo, d.Float64()) }

// whole is even over lo..hi, both included.
func (d draw) whole(lo, hi int) int { return lo + d.IntN(hi-lo+1) }

// gain is even in dB over lo..hi, as a factor.
func (d draw) gain(lo, hi float64) float64 { return fromDB(d.between(lo, hi)) }

// chance is true with probability p.
func (d draw) chance(p float64) bool { return d.Float64() < p }

// about is x give or take a part of itself, normally distributed, never over three times that.
func (d draw) about(x, part float64) float64 {
	return x * (1 + part*max(-3, min(3, d.NormFloat64())))
}

// pick is any of xs.
func pick[T any](d draw, xs []T) T { return xs[d.IntN(len(xs))] }

// fromDB is x dB as a factor of amplitude.
func fromDB(x float64) float64 { return math.Pow(10, x/20) }
