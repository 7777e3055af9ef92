package scene

import "math"

// logSum is log(exp a + exp b).
func logSum(a, b float64) float64 {
	if a < b {
		a, b = b, a
	}
	if math.IsInf(b, -1) || math.IsNaN(b) {
		return a
	}
	return a + math.Log1p(math.Exp(b-a))
}

func logistic(x float64) float64 { return 1 / (1 + math.Exp(-x)) }

// negligible is a probability that adds nothing.
const negligible = 1e-12

// expect returns the logarithm of the sum of all explanations, fills in the probability of
// each arc, and adds the expected features, times by, to grad, if that is not nil. The
// backward pass is the derivative of the forward one, which is what probabilities are.
func (l *lattice) expect(w *Weights, by float64, grad []float64) float64 {
	n := len(l.arcs)
	score := make([]float64, n)
	for i, a := range l.arcs {
		score[i] = a.dot(w)
	}
	forward, inner, until := make([]float64, n), make([]float64, n), make([]float64, n+1)
	through := func(e *edge) (sum, between float64) {
		x := forward[e.from] + e.weight(w)
		if e.between < 0 {
			return x, 0
		}
		y := score[e.between] + w[fOutlier]
		return x + logSum(0, y), logistic(y)
	}
	for i := range l.arcs {
		inner[i] = until[l.free[i]]
		for k := range l.edges[i] {
			x, _ := through(&l.edges[i][k])
			inner[i] = logSum(inner[i], x)
		}
		forward[i] = inner[i] + score[i]
		until[i+1] = logSum(until[i], forward[i])
	}
	node, before, p := make([]float64, n), make([]float64, n+1), make([]float64, n)
	before[n] = 1
	for i := n - 1; i >= 0; i-- {
		q := math.Exp(forward[i] - until[i+1])
		node[i] += before[i+1] * q
		before[i] += before[i+1] * (1 - q)
		p[i] += node[i]
		if node[i] < negligible {
			continue
		}
		before[l.free[i]] += node[i] * math.Exp(until[l.free[i]]-inner[i])
		for k := range l.edges[i] {
			e := &l.edges[i][k]
			x, between := through(e)
			q := node[i] * math.Exp(x-inner[i])
			node[e.from] += q
			if e.between >= 0 {
				p[e.between] += q * between
			}
			if grad != nil {
				grad[fRepeat] += by * q * e.repeat
				grad[fSoon] += by * q * e.soon
				grad[fOutlier] += by * q * between
			}
		}
	}
	for i, a := range l.arcs {
		a.p = p[i]
		if grad != nil && p[i] > negligible {
			for f, x := range a.f {
				grad[f] += by * p[i] * float64(x)
			}
		}
	}
	return until[n]
}
