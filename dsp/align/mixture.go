package align

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
)

// What a mixture of two movements is looked for by.
const (
	shallow  = 0.003 // −25 dB of the loudest in its band: what is weaker tells nothing of a movement
	begins   = 4     // times the noise, 6 dB: from which the first has begun,
	earliest = 6     // hops, so long after its start at most, for that may be weak,
	latest   = 2     // and so long before it
	loosest  = 8     // dB by which one may be louder or weaker than it mostly is
	twice    = 2     // times what both leave one leaves, where there are two: 2.3 to 35; where there is one, mostly less than 1
)

// mixture is a sound in cells that may be one movement followed by another, each with
// its power as in the mean of its kind.
type mixture struct {
	x             cells
	noise         [cellBands]float64
	first, second cells // as long as x
}

// component is a movement in a mixture: when it starts, hops, and how much louder it is
// than it mostly is, dB.
type component struct {
	at   int
	gain float64
}

// newMixture is the sound of cells x, over the noise before it, as two movements may
// make it. What is shallow counts as noise.
func newMixture(x cells, noise [cellBands]float64, first, second cells) *mixture {
	m := &mixture{x: x, noise: noise, first: first.lasting(len(x)), second: second.lasting(len(x))}
	for b, loudest := range x.loudest() {
		least := math.Max(shallow*loudest, math.SmallestNonzeroFloat32)
		m.noise[b] += least
		for k := range x {
			x[k][b] += least
		}
	}
	return m
}

// left is what of the sound the two components leave unexplained: the deviance of its
// powers from theirs, each the sum of squares of as many normal values as its band has
// that are independent. Powers are the sums of what adds in them, as phases change from
// shot to shot (the Itakura-Saito divergence of spectrograms: C. Févotte, N. Bertin and
// J.-L. Durrieu, Neural Computation 21, 2009; from memory). A component that starts
// behind the end is none.
func (m *mixture) left(first, second component) float64 {
	g, h := math.Pow(10, first.gain/10), math.Pow(10, second.gain/10)
	sum := 0.0
	for b := range cellBands {
		logs, product, n := 0.0, 1.0, 0
		ratios := 0.0
		for k := range m.x {
			p := m.noise[b]
			if i := k - first.at; i >= 0 {
				p += g * m.first[i][b]
			}
			if i := k - second.at; i >= 0 {
				p += h * m.second[i][b]
			}
			r := m.x[k][b] / p
			ratios += r
			product *= r
			if n++; n%16 == 0 {
				logs += math.Log(product)
				product = 1
			}
		}
		sum += free(b) * (ratios - logs - math.Log(product) - float64(len(m.x)))
	}
	return sum
}

// needsTwo tells whether there are two movements in the sound, given what either leaves
// alone and what both do: one must leave more than chance does, and twice as much as
// both, and these no more than twice what chance does, for sounds change from shot to shot.
func (m *mixture) needsTwo(alone, both float64) bool {
	chance := float64(len(m.x)*cellBands) / 2
	return alone > chance && alone > twice*both && both < twice*chance
}

// onset is the hop in which the sound begins to show.
func (m *mixture) onset() int {
	noise := floats.Sum(m.noise[:])
	return max(0, slices.IndexFunc(m.x, func(c [cellBands]float64) bool { return floats.Sum(c[:]) > begins*noise }))
}

// alone is what either movement leaves by itself at its best, which has more freedom
// than it has beside another.
func (m *mixture) alone() float64 {
	least, never, onset := math.Inf(1), component{at: len(m.x)}, m.onset()
	for at := max(0, onset-earliest); at <= onset+2*earliest; at++ {
		for gain := -loosest * 1.5; gain <= loosest*1.5; gain += 3 {
			p := component{at, gain}
			least = min(least, m.left(p, never), m.left(never, p))
		}
	}
	return least
}

// two is the pair of components that leaves least, the second from least to most hops after
// the first, and what it leaves.
func (m *mixture) two(least, most int) (first, second component, left float64) {
	type trial struct {
		first, second component
		left          float64
	}
	const starts = 4 // of those at which both are as loud as mostly, refined
	onset := m.onset()
	var tries []trial
	for at := max(0, onset-earliest); at <= onset+latest; at += 2 {
		for lag := least; lag <= most; lag += 2 {
			for gain := -5.0; gain <= 5; gain += 5 {
				a, b := component{at, gain}, component{at + lag, gain}
				tries = append(tries, trial{a, b, m.left(a, b)})
			}
		}
	}
	slices.SortFunc(tries, func(a, b trial) int { return cmp.Compare(a.left, b.left) })
	left = math.Inf(1)
	for _, t := range tries[:min(starts, len(tries))] {
		if a, b, l := m.settle(t.first, t.second, least, most); l < left {
			first, second, left = a, b, l
		}
	}
	return first, second, left
}

// settle moves and levels two components, step by step, as long as less is left.
func (m *mixture) settle(a, b component, least, most int) (first, second component, left float64) {
	left = m.left(a, b)
	for step := 4.0; step >= 1; {
		better := false
		for _, d := range [...]struct {
			first, second int
			a, b          float64
		}{{1, 1, 0, 0}, {-1, -1, 0, 0}, {0, 1, 0, 0}, {0, -1, 0, 0}, {1, 0, 0, 0}, {-1, 0, 0, 0}, {0, 0, step, 0}, {0, 0, -step, 0}, {0, 0, 0, step}, {0, 0, 0, -step}} {
			p, q := component{a.at + d.first, a.gain + d.a}, component{b.at + d.second, b.gain + d.b}
			if lag := q.at - p.at; p.at < 0 || lag < least || lag > most || math.Abs(p.gain) > loosest || math.Abs(q.gain) > loosest {
				continue
			}
			if l := m.left(p, q); l < left {
				a, b, left, better = p, q, l, true
			}
		}
		if !better {
			step /= 2
		}
	}
	return a, b, left
}
