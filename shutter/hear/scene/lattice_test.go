package scene

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// drawn is a clip of a few sounds, with arcs of random features between them.
func drawn(r *rand.Rand, sounds int) *clip {
	c := &clip{view: &view{ms: 1}}
	at := 100
	for range sounds {
		at += 60 + r.IntN(900)
		c.s = append(c.s, sound{first: at, at: at})
	}
	for i := range sounds {
		for j := i + 1; j < sounds; j++ {
			a := arc{open: i, close: j, release: -1}
			for f := range a.f {
				a.f[f] = float32(r.NormFloat64())
			}
			c.arcs = append(c.arcs, a)
		}
	}
	return c
}

func drawnWeights(r *rand.Rand) (w Weights) {
	for i := range w {
		w[i] = r.NormFloat64() / 3
	}
	return w
}

// all lists every row of arcs of the lattice that don't overlap, by brute force: each ends
// before the next begins.
func (l *lattice) all(c *clip) (rows [][]int) {
	var grow func(row []int, from int)
	grow = func(row []int, from int) {
		rows = append(rows, slices.Clone(row))
		for i := from; i < len(l.arcs); i++ {
			if n := len(row); n == 0 || c.s[l.arcs[row[n-1]].close].at+leastRest <= c.s[l.arcs[i].first()].first {
				grow(append(row, i), i+1)
			}
		}
	}
	grow(nil, 0)
	return rows
}

// score is what a row of arcs scores by the best way to link it: each to the one before, or
// passing over one.
func (l *lattice) score(w *Weights, row []int) float64 {
	if len(row) == 0 {
		return 0
	}
	best := math.Inf(-1)
	var walk func(k int, sum float64)
	walk = func(k int, sum float64) {
		if k == len(row)-1 {
			best = math.Max(best, sum)
			return
		}
		for _, e := range l.edges[row[k+1]] {
			if e.from == row[k] {
				walk(k+1, sum+e.weight(w)+l.arcs[row[k+1]].score)
			}
		}
		if k+2 < len(row) {
			for _, e := range l.edges[row[k+2]] {
				if e.from == row[k] && e.between == row[k+1] {
					walk(k+2, sum+e.weight(w)+w[fOutlier]+l.arcs[row[k+1]].score+l.arcs[row[k+2]].score)
				}
			}
		}
	}
	walk(0, l.arcs[row[0]].score)
	return best
}

func TestTheBestExplanationIsTheBestOfAll(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for trial := range 200 {
		c, w := drawn(r, 2+r.IntN(7)), drawnWeights(r)
		l := c.lattice(&w, &start{any: true})
		want := math.Inf(-1)
		for _, row := range l.all(c) {
			want = math.Max(want, l.score(&w, row))
		}
		arcs, got := l.best(&w)
		if math.Abs(got-want) > 1e-9 {
			t.Fatalf("trial %d: best scores %.6f, want %.6f", trial, got, want)
		}
		for i := 1; i < len(arcs); i++ {
			if c.s[arcs[i-1].close].at >= c.s[arcs[i].first()].first {
				t.Fatalf("trial %d: firings overlap", trial)
			}
		}
	}
}

func TestTheSumsAreThoseOverEveryExplanation(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 1))
	for trial := range 100 {
		c, w := drawn(r, 2+r.IntN(6)), drawnWeights(r)
		l := c.lattice(&w, &start{any: true})
		sum, with := math.Inf(-1), make([]float64, len(l.arcs))
		for i := range with {
			with[i] = math.Inf(-1)
		}
		for _, row := range l.all(c) {
			x := l.along(&w, row, 0, make([]float64, numFeatures))
			sum = logSum(sum, x)
			for _, i := range row {
				with[i] = logSum(with[i], x)
			}
		}
		if got := l.expect(&w, 0, nil); math.Abs(got-sum) > 1e-9 {
			t.Fatalf("trial %d: log Z is %.9f, want %.9f", trial, got, sum)
		}
		for i, a := range l.arcs {
			if want := math.Exp(with[i] - sum); math.Abs(a.p-want) > 1e-9 {
				t.Fatalf("trial %d: arc %d has probability %.9f, want %.9f", trial, i, a.p, want)
			}
		}
	}
}

func TestTheGradientIsThatOfDifferences(t *testing.T) {
	const h = 1e-5
	r := rand.New(rand.NewPCG(3, 1))
	for range 10 {
		c, w := drawn(r, 8), drawnWeights(r)
		l := c.lattice(&w, &start{any: true})
		rows := l.all(c)
		truth := rows[r.IntN(len(rows))]
		loss := func(w Weights, grad []float64) float64 {
			return l.expect(&w, 1, grad) - l.along(&w, truth, -1, grad)
		}
		grad := make([]float64, numFeatures)
		loss(w, grad)
		for i := range w {
			up, down := w, w
			up[i] += h
			down[i] -= h
			want := (loss(up, make([]float64, numFeatures)) - loss(down, make([]float64, numFeatures))) / (2 * h)
			if math.Abs(grad[i]-want) > 1e-4 {
				t.Fatalf("%s: the gradient is %.6f, want %.6f", features[i].name, grad[i], want)
			}
		}
	}
}
