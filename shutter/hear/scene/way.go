package scene

import (
	"context"
	"math"
	"slices"
)

// way is one way to explain a clip.
type way struct {
	arcs []*arc
	odds [numOdds]float64
}

// eased are how much a search lowers its demands on an arc, round after round, until the
// shutter is known.
var eased = [...]float64{4, 1, 0}

// again is how often the clip is explained anew without the sounds of the ways before.
const again = 3

// ways are explanations from several starts: with a release before each firing and without,
// and without the sounds of those found before, which may be of something else that repeats.
func (c *clip) ways(ctx context.Context, w *Weights) (all []way) {
	barred := make([]bool, len(c.s))
	for range again {
		before := slices.Clone(barred)
		for _, released := range []bool{false, true} {
			if ctx.Err() != nil {
				return nil
			}
			arcs, score := c.from(w, start{released: released, barred: before})
			if len(arcs) == 0 || slices.ContainsFunc(all, func(x way) bool { return same(x.arcs, arcs) }) {
				continue
			}
			x := way{odds: c.describe(arcs, score)}
			for _, a := range arcs {
				kept := *a // its features change as others are looked for
				x.arcs = append(x.arcs, &kept)
				barred[a.open], barred[a.close] = true, true
			}
			all = append(all, x)
		}
	}
	return all
}

// from looks for the best explanation from one start, and its score.
func (c *clip) from(w *Weights, s start) (best []*arc, score float64) {
	c.hold(nil)
	for _, ease := range eased {
		lower := *w
		lower[fBias] += ease
		l := c.lattice(&lower, &s)
		if best, score = l.best(&lower); len(best) == 0 {
			return nil, 0
		}
		if ease > 0 {
			c.hold(c.learn(best))
		} else {
			l.expect(w, 0, nil)
		}
		s.any = true
	}
	return best, score
}

// likeliest is the way that is most likely a shutter's, and the probability that it is:
// against all other ways, and against there being nothing, which has odds of 1.
func likeliest(all []way, w *OddsWeights) (best way, p float64) {
	most, sum := math.Inf(-1), 0.0
	for _, x := range all {
		o := w.of(&x.odds)
		sum = logSum(sum, o)
		if o > most {
			most, best = o, x
		}
	}
	return best, math.Exp(most - sum)
}

// same tells whether two explanations are of the same openings and closings.
func same(a, b []*arc) bool {
	return slices.EqualFunc(a, b, func(x, y *arc) bool { return x.open == y.open && x.close == y.close })
}
