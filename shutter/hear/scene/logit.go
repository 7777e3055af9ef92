package scene

import (
	"context"
	"math"

	"gonum.org/v1/gonum/optimize"
)

// oddsRidge is how much weights of whole explanations are drawn to 0.
const oddsRidge = 0.5

// fitOdds fits the weights of whole explanations: of the ways to explain a clip, and of
// there being nothing, one is right (a multinomial logit). Ways that are partly right count
// as right by their share; a clip whose firings no way finds tells nothing.
func (t *Table) fitOdds(all []*Example) {
	type told struct {
		ways  [][numOdds]float64
		right []float64 // the last is for nothing
	}
	each := make([]*told, len(all))
	inParallel(len(all), func(i int) {
		x, most := new(told), 0.0
		for _, way := range all[i].c.ways(context.Background(), &t.Arcs) {
			right := float64(all[i].right(way.arcs)) / float64(max(len(way.arcs), len(all[i].truth)))
			most = math.Max(most, right)
			x.ways, x.right = append(x.ways, way.odds), append(x.right, right)
		}
		if len(all[i].Truth) == 0 {
			x.right = append(x.right, 1)
		} else {
			x.right = append(x.right, 0)
		}
		if most > 0.5 || len(all[i].Truth) == 0 {
			each[i] = x
		}
	})
	at := func(x, grad []float64) float64 {
		w, sum := OddsWeights(x), 0.0
		clear(grad)
		for _, r := range each {
			if r == nil {
				continue
			}
			// log of the sum over all, and over all by their share of right
			z, right := 0.0, math.Log(r.right[len(r.ways)])
			for k := range r.ways {
				o := w.of(&r.ways[k])
				z, right = logSum(z, o), logSum(right, o+math.Log(r.right[k]))
			}
			sum += z - right
			if grad == nil {
				continue
			}
			for k := range r.ways {
				o := w.of(&r.ways[k])
				p := math.Exp(o-z) - math.Exp(o+math.Log(r.right[k])-right)
				for j := range grad {
					grad[j] += p * r.ways[k][j]
				}
			}
		}
		for k := range x {
			sum += oddsRidge / 2 * x[k] * x[k]
			if grad != nil {
				grad[k] += oddsRidge * x[k]
			}
		}
		return sum
	}
	problem := optimize.Problem{
		Func: func(x []float64) float64 { return at(x, nil) },
		Grad: func(grad, x []float64) { at(x, grad) },
	}
	r, _ := optimize.Minimize(problem, make([]float64, numOdds), nil, &optimize.LBFGS{})
	copy(t.Odds[:], r.X)
	copy(t.OddErrors[:], standardErrors(t.Odds[:], at))
}
