package assign

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// The offsets from nominal that are told apart, in stops.
const (
	offsetLow  = -2.0
	offsetStep = 0.125
	offsets    = 41 // to +3
)

// offsetAt is the offset in stops that a bin stands for.
func offsetAt(bin int) float64 { return offsetLow + offsetStep*float64(bin) }

// offsetPrior is the chance of each offset where nothing is known of the shutter.
func offsetPrior() (p [offsets]float64) {
	for b := range p {
		p[b] = student3(offsetAt(b)-usualOffset, offsetScale)
	}
	return scaled(&p, 1/sumOf(&p))
}

// band is a symmetric kernel over offsets: band[k] is the weight of a move by ±k bins.
type band []float64

// driftBetween is the kernel by which the offset moves between two settings. It is
// wider the further they lie apart, and where the blades' stroke begins to tell.
func driftBetween(from, to float64) band {
	stroke := math.Log2(1+strokeTime/to) - math.Log2(1+strokeTime/from)
	apart := math.Max(math.Abs(math.Log2(from/to)), 0.25)
	scale := math.Hypot(driftScale*math.Sqrt(apart), stroke)
	var k band
	for move := 0.0; move <= 3*scale; move += offsetStep {
		k = append(k, math.Exp(-move*move/(2*scale*scale)))
	}
	floats.Scale(1/(2*floats.Sum(k)-k[0]), k)
	return k
}

// moved carries a distribution over offsets on to setting s, uneven or not.
func (m *layModel) moved(p *[offsets]float64, s int) (q [offsets]float64) {
	k, total := m.drift[s], sumOf(p)
	for b, w := range p {
		for move, weight := range k {
			q[clampOffset(b-move)] += (1 - unevenChance) * weight * w
			if move > 0 {
				q[clampOffset(b+move)] += (1 - unevenChance) * weight * w
			}
		}
	}
	addScaled(&q, &m.prior, unevenChance*total)
	return q
}

// movedBack is the transpose of moved: the backward chance at each offset of going on to
// setting s, where worth are the backward chances of the offsets there.
func (m *layModel) movedBack(worth *[offsets]float64, s int) (q [offsets]float64) {
	k, uneven := m.drift[s], unevenChance*dot(&m.prior, worth)
	for b := range q {
		q[b] = uneven
		for move, weight := range k {
			q[b] += (1 - unevenChance) * weight * worth[clampOffset(b-move)]
			if move > 0 {
				q[b] += (1 - unevenChance) * weight * worth[clampOffset(b+move)]
			}
		}
	}
	return q
}

func clampOffset(b int) int { return min(max(b, 0), offsets-1) }

// Sums over the offsets, written for arrays of fixed size. Those of gonum are faster by
// themselves, but move their arguments to the heap. The longest list that can be told takes
// 2.3 GB with them and 190 MB with these, which a test checks.

func scaled(p *[offsets]float64, by float64) (q [offsets]float64) {
	for b, v := range p {
		q[b] = v * by
	}
	return q
}

func addScaled(to, p *[offsets]float64, by float64) {
	for b, v := range p {
		to[b] += v * by
	}
}

func dot(p, q *[offsets]float64) float64 {
	sum := 0.0
	for b, v := range p {
		sum += v * q[b]
	}
	return sum
}

func sumOf(p *[offsets]float64) float64 {
	sum := 0.0
	for _, v := range p {
		sum += v
	}
	return sum
}
