package impact

import (
	"hash/fnv"
	"math"
	"math/rand/v2"
)

// dice draw what differs from clip to clip.
type dice struct{ *rand.Rand }

// newDice returns dice for one purpose, which do not depend on those for another.
func newDice(seed uint64, purpose string) dice {
	h := fnv.New64a()
	h.Write([]byte(purpose))
	return dice{rand.New(rand.NewPCG(seed, h.Sum64()))}
}

// in draws evenly between two limits.
func (d dice) in(low, high float64) float64 { return low + (high-low)*d.Float64() }

// ratio draws between two limits above 0, evenly in their logarithm.
func (d dice) ratio(low, high float64) float64 { return low * math.Pow(high/low, d.Float64()) }

// about draws a factor that is 1 on average, give or take a share.
func (d dice) about(share float64) float64 { return math.Exp(share * d.NormFloat64()) }

// count draws a whole number from low to high, both included.
func (d dice) count(low, high int) int { return low + d.IntN(high-low+1) }

// chance is true with probability p.
func (d dice) chance(p float64) bool { return d.Float64() < p }

// one picks one of several.
func one[T any](d dice, of ...T) T { return of[d.IntN(len(of))] }
