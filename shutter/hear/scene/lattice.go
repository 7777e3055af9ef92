package scene

import (
	"cmp"
	"math"
	"slices"
)

// Bounds of what is searched.
const (
	links     = 24 // firings back that another may be the one before
	mostArcs  = 5  // with one opening, and with one closing
	hopeless  = -7 // score of an arc that nothing makes good
	leastRest = 15 // ms from a closing to the next firing
)

// edge is a link of two firings, with at most one between them that lasts unlike either.
type edge struct {
	from         int
	repeat, soon float64
	between      int // −1: none
}

func (e *edge) weight(w *Weights) float64 { return w[fRepeat]*e.repeat + w[fSoon]*e.soon }

// lattice is the arcs that are worth anything, by their closing, and their links.
type lattice struct {
	arcs  []*arc
	edges [][]edge
	free  []int // arcs before this one may precede without a link
}

// start is which arcs a search begins with.
type start struct {
	released bool   // those with a release, or those without
	any      bool   // or all
	barred   []bool // sounds it must do without
}

func (s *start) allows(a *arc) bool {
	if !s.any && s.released != (a.release >= 0) {
		return false
	}
	return s.barred == nil || !s.barred[a.open] && !s.barred[a.close]
}

// lattice weighs the arcs and leaves those that may be in the best explanation.
func (c *clip) lattice(w *Weights, s *start) *lattice {
	scored := make([]*arc, 0, 256)
	for i := range c.arcs {
		if a := &c.arcs[i]; s.allows(a) {
			if a.score = a.dot(w); a.score > hopeless {
				scored = append(scored, a)
			}
		}
	}
	scored = bestOfEach(scored, func(a *arc) int { return a.open })
	scored = bestOfEach(scored, func(a *arc) int { return a.close })
	return c.linked(scored)
}

// bestOfEach leaves of the arcs with one end in common those of the highest score.
func bestOfEach(arcs []*arc, end func(a *arc) int) (kept []*arc) {
	slices.SortFunc(arcs, func(a, b *arc) int {
		return cmp.Or(cmp.Compare(end(a), end(b)), cmp.Compare(b.score, a.score), byClosing(a, b))
	})
	n := 0
	for i, a := range arcs {
		if i > 0 && end(arcs[i-1]) != end(a) {
			n = 0
		}
		if n++; n <= mostArcs {
			kept = append(kept, a)
		}
	}
	return kept
}

func byClosing(a, b *arc) int {
	return cmp.Or(cmp.Compare(a.close, b.close), cmp.Compare(a.open, b.open), cmp.Compare(a.release, b.release))
}

// linked makes a lattice of arcs whose scores are known.
func (c *clip) linked(arcs []*arc) *lattice {
	slices.SortFunc(arcs, byClosing)
	l := &lattice{arcs: arcs, edges: make([][]edge, len(arcs)), free: make([]int, len(arcs))}
	for i, b := range arcs {
		m, _ := slices.BinarySearchFunc(arcs, c.s[b.first()].first, func(a *arc, t int) int {
			if c.s[a.close].at+leastRest > t {
				return 1
			}
			return -1
		})
		l.free[i] = max(0, m-links)
		for q := l.free[i]; q < m; q++ {
			e := edge{from: q, between: -1}
			e.repeat, e.soon = c.link(arcs[q], b)
			for r := q + 1; r < m; r++ {
				x := arcs[r]
				if c.s[x.first()].first >= c.s[arcs[q].close].at+leastRest && (e.between < 0 || x.score > arcs[e.between].score) {
					e.between = r
				}
			}
			l.edges[i] = append(l.edges[i], e)
		}
	}
	return l
}

// link are the features of two firings one after the other. One repeats the other, is a
// step of the dial away, or lasts anything: a mixture of these, over what anything is.
func (c *clip) link(a, b *arc) (repeat, soon float64) {
	const (
		again, step, near, any = 0.55, 0.15, 0.1, 0.2 // shares
		scatter, stepScatter   = 0.06, 0.12           // stops
		nearby, wide           = 0.5, 2.5
		reading                = 1.5 // ms by which a span is read wrong
		rest                   = 500 // ms in which nobody winds
		unlike                 = 2.2 // stops from which the one tells nothing of the other
	)
	spanA, spanB := float64(c.s[a.close].at-c.s[a.open].at), float64(c.s[b.close].at-c.s[b.open].at)
	gap := float64(c.s[b.first()].first-c.s[a.close].at) * c.ms
	soon = within((rest-gap)/rest, 0, 1)
	r := math.Log2(spanB / spanA)
	if math.Abs(r) > unlike {
		return -0.5, soon
	}
	sd := math.Hypot(scatter, reading/math.Min(spanA, spanB))
	anything := normal(r, wide)
	m := again*normal(r, sd) + step*(normal(r-1, stepScatter)+normal(r+1, stepScatter)) + near*normal(r, nearby) + any*anything
	return within(math.Log(m/anything)/3, -0.5, 1), soon
}

// normal is the density of a normal distribution about 0.
func normal(x, sd float64) float64 {
	return math.Exp(-x*x/2/sd/sd) / sd / math.Sqrt(2*math.Pi)
}

// best is the explanation of the highest score, by dynamic programming (Viterbi 1967), and
// that score: 0 for no firing at all.
func (l *lattice) best(w *Weights) (arcs []*arc, score float64) {
	n := len(l.arcs)
	at, back := make([]float64, n), make([]edge, n)
	until, untilAt := make([]float64, n+1), make([]int, n+1) // the best of the arcs before
	untilAt[0] = -1
	for i, b := range l.arcs {
		at[i], back[i] = b.score+until[l.free[i]], edge{from: untilAt[l.free[i]], between: -1}
		for _, e := range l.edges[i] {
			s := at[e.from] + b.score + e.weight(w)
			if e.between >= 0 {
				if x := l.arcs[e.between].score + w[fOutlier]; x > 0 {
					s += x
				} else {
					e.between = -1
				}
			}
			if s > at[i] {
				at[i], back[i] = s, e
			}
		}
		until[i+1], untilAt[i+1] = until[i], untilAt[i]
		if at[i] > until[i+1] {
			until[i+1], untilAt[i+1] = at[i], i
		}
	}
	for i := untilAt[n]; i >= 0; i = back[i].from {
		arcs = append(arcs, l.arcs[i])
		if b := back[i].between; b >= 0 {
			arcs = append(arcs, l.arcs[b])
		}
	}
	slices.Reverse(arcs)
	return arcs, until[n]
}
