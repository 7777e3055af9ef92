package scene

import (
	"context"
	"math"
	"runtime"
	"slices"
	"sync"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"
)

// Example is a clip whose firings are known.
type Example struct {
	Recording
	Truth  []Pair
	Reflex bool    // each firing has a release before it
	Weight float64 // how much it counts for arcs; a clip without a firing little: odds tell those

	c     *clip
	truth []*arc
}

// Pair is a true opening and closing: from the start to the stop of either, s, and how far
// from that a sound of theirs may be heard.
type Pair struct{ Open, OpenStop, Close, CloseStop, Tolerance float64 }

// Table is what was fitted, with the standard error of each weight.
type Table struct {
	Arcs, ArcErrors Weights
	Odds, OddErrors OddsWeights
}

// prior is what weights are drawn to where the examples tell nothing: a firing is prominent
// and alone, and repeats. Only signs and rough sizes; it counts as much as one firing.
var prior = Weights{fBias: -2, fPromOpen: 2, fPromClose: 2, fStrongOpen: 1, fStrongClose: 1, fBefore: -2, fLongBefore: -1,
	fAfter: -1, fLongAfter: -0.5, fInside: -2, fBuzz: 1, fWant: -1, fLikeOpen: 1, fLikeClose: 1, fCrossOpen: 1, fCrossClose: 1,
	fLevelOpen: -0.5, fLevelClose: -0.5, fAlike: -1, fRelease: -1, fLead: 1, fReleaseLike: 1, fCrowd: -2, fRepeat: 2, fSoon: -1, fOutlier: -1}

// How the fit is done.
const (
	rounds     = 4    // of looking for explanations and fitting anew
	iterations = 40   // of L-BFGS in each
	ridge      = 0.05 // against weights far from the prior
)

// Fit fits both tables by maximum likelihood, from all examples alike, and is deterministic.
func Fit(all []*Example, report func(round int, loss float64)) (t Table) {
	inParallel(len(all), func(i int) { all[i].prepare() })
	t.Arcs = prior
	var loss *objective
	for round := range rounds {
		loss = newObjective(all, &t.Arcs)
		problem := optimize.Problem{
			Func: func(x []float64) float64 { return loss.at(x, nil) },
			Grad: func(grad, x []float64) { loss.at(x, grad) },
		}
		// an end of the search for want of progress is as good as any
		r, _ := optimize.Minimize(problem, slices.Clone(t.Arcs[:]), &optimize.Settings{MajorIterations: iterations}, &optimize.LBFGS{})
		copy(t.Arcs[:], r.X)
		report(round, r.F)
	}
	copy(t.ArcErrors[:], standardErrors(t.Arcs[:], loss.at))
	t.fitOdds(all)
	return t
}

// prepare reads the example once, and finds the arcs that are its firings.
func (x *Example) prepare() {
	x.c = newClip(context.Background(), x.Recording, &prior)
	taken := map[*arc]bool{}
	for _, t := range x.Truth {
		if a := x.nearest(t); a != nil && !taken[a] {
			taken[a] = true
			x.truth = append(x.truth, a)
		}
	}
	slices.SortFunc(x.truth, byClosing)
}

// nearest is the arc that a true firing is, nil where its sounds were not heard.
func (x *Example) nearest(t Pair) (best *arc) {
	least := math.Inf(1)
	for i := range x.c.arcs {
		a := &x.c.arcs[i]
		o, cl := x.c.told(a.open).At, x.c.told(a.close).At
		od, cd := outside(o, t.Open, t.OpenStop), outside(cl, t.Close, t.CloseStop)
		if od > t.Tolerance || cd > t.Tolerance {
			continue
		}
		d := od + cd
		if x.Reflex != (a.release >= 0) {
			d += 1e-6
		}
		if d < least {
			least, best = d, a
		}
	}
	return best
}

func outside(t, from, to float64) float64 {
	return math.Max(0, math.Max(from-t, t-math.Max(from, to)))
}

// stage is the lattice of an example in one state of what is known of its shutter.
type stage struct {
	*lattice
	truth []int
	by    float64
}

// stages are the lattices to fit: nothing known, what its true firings teach, and what is
// found now, where that is right.
func (x *Example) stages(w *Weights) (out []stage) {
	c := x.c
	c.hold(nil)
	out = append(out, x.stage(w, 0.2))
	for _, released := range []bool{false, true} {
		best, _ := c.from(w, start{released: released})
		if len(best) == 0 || 2*x.right(best) < len(best) && len(x.truth) > 0 {
			continue
		}
		c.hold(c.learn(best))
		out = append(out, x.stage(w, 0.15))
	}
	if len(x.truth) > 0 {
		c.hold(c.learn(x.truth))
		out = append(out, x.stage(w, 0.5))
	}
	return out
}

// right is how many arcs of an explanation are true firings.
func (x *Example) right(arcs []*arc) (n int) {
	for _, a := range arcs {
		if slices.ContainsFunc(x.truth, func(t *arc) bool { return t.open == a.open && t.close == a.close }) {
			n++
		}
	}
	return n
}

// stage is the lattice of the example as it is now, with the true firings in it. Its arcs
// are copies.
func (x *Example) stage(w *Weights, by float64) stage {
	l := x.c.lattice(w, &start{any: true})
	arcs := l.arcs
	for _, t := range x.truth {
		if t.score = t.dot(w); !slices.Contains(arcs, t) {
			arcs = append(arcs, t)
		}
	}
	s := stage{lattice: x.c.linked(arcs), by: by * x.Weight}
	for _, t := range x.truth {
		s.truth = append(s.truth, slices.Index(s.arcs, t))
	}
	copies := make([]arc, len(s.arcs))
	for i := range s.arcs {
		copies[i] = *s.arcs[i]
		s.arcs[i] = &copies[i]
	}
	return s
}

// objective is what is made least: minus the log likelihood of the true explanations.
type objective struct {
	stages []stage

	x, grad []float64 // where it was worked out last,
	sum     float64   // and what it was there
}

func newObjective(all []*Example, w *Weights) *objective {
	each := make([][]stage, len(all))
	inParallel(len(all), func(i int) { each[i] = all[i].stages(w) })
	return &objective{stages: slices.Concat(each...)}
}

// at is the objective at the weights x; it writes its gradient to grad unless that is nil.
// Sums are in the order of the stages, whatever the order of work.
func (o *objective) at(x, grad []float64) float64 {
	if !slices.Equal(o.x, x) {
		o.x = slices.Clone(x)
		o.sum, o.grad = o.workOut(x)
	}
	copy(grad, o.grad)
	return o.sum
}

func (o *objective) workOut(x []float64) (sum float64, grad []float64) {
	w := Weights(x)
	losses, grads := make([]float64, len(o.stages)), make([][numFeatures]float64, len(o.stages))
	inParallel(len(o.stages), func(i int) {
		s := &o.stages[i]
		losses[i] = s.by * (s.expect(&w, s.by, grads[i][:]) - s.along(&w, s.truth, -s.by, grads[i][:]))
	})
	total := make([]float64, numFeatures)
	for i := range losses {
		sum += losses[i]
		for k, g := range grads[i] {
			total[k] += g
		}
	}
	for k := range total {
		d := x[k] - prior[k]
		sum += ridge * d * d
		total[k] += 2 * ridge * d
	}
	return sum, total
}

// along is the logarithm of the sum over the ways to explain a clip by just the true arcs;
// it adds its gradient, times by, to grad. Of three in a row the links may pass over the
// second.
func (l *lattice) along(w *Weights, truth []int, by float64, grad []float64) float64 {
	n := len(truth)
	if n == 0 {
		return 0
	}
	sum := 0.0
	for _, i := range truth {
		sum += l.arcs[i].dot(w)
		for f, x := range l.arcs[i].f {
			grad[f] += by * float64(x)
		}
	}
	at := make([]float64, n)
	for i := 1; i < n; i++ {
		one, two := l.steps(w, truth, at, i)
		at[i] = logSum(one.sum, two.sum)
	}
	node := make([]float64, n)
	node[n-1] = 1
	for i := n - 1; i > 0; i-- {
		one, two := l.steps(w, truth, at, i)
		for k, s := range []step{one, two} {
			p := node[i] * math.Exp(s.sum-at[i])
			if p == 0 {
				continue
			}
			node[i-1-k] += p
			grad[fRepeat] += by * p * s.repeat
			grad[fSoon] += by * p * s.soon
			grad[fOutlier] += by * p * float64(k)
		}
	}
	return sum + at[n-1]
}

// step is one way to come to a true firing: all that leads there, and its link.
type step struct{ sum, repeat, soon float64 }

// steps are from the firing before, and from the one before that.
func (l *lattice) steps(w *Weights, truth []int, at []float64, i int) (one, two step) {
	one, two = step{sum: at[i-1]}, step{sum: math.Inf(-1)}
	for _, e := range l.edges[truth[i]] {
		switch {
		case e.from == truth[i-1]:
			one = step{at[i-1] + e.weight(w), e.repeat, e.soon}
		case i > 1 && e.from == truth[i-2] && e.between == truth[i-1]:
			two = step{at[i-2] + e.weight(w) + w[fOutlier], e.repeat, e.soon}
		}
	}
	return one, two
}

// standardErrors are from the curvature at the optimum x: the roots of the diagonal of the
// inverse of the Hessian, which is taken from differences of the gradient.
func standardErrors(x []float64, at func(x, grad []float64) float64) []float64 {
	const h = 1e-3
	n := len(x)
	hessian := mat.NewSymDense(n, nil)
	up, down := make([]float64, n), make([]float64, n)
	rows := make([][]float64, n)
	for i := range x {
		y := slices.Clone(x)
		y[i] = x[i] + h
		at(y, up)
		y[i] = x[i] - h
		at(y, down)
		rows[i] = make([]float64, n)
		for j := range rows[i] {
			rows[i][j] = (up[j] - down[j]) / (2 * h)
		}
	}
	for i := range n {
		for j := i; j < n; j++ {
			hessian.SetSym(i, j, (rows[i][j]+rows[j][i])/2)
		}
	}
	errors := make([]float64, n)
	var chol mat.Cholesky
	if !chol.Factorize(hessian) {
		return errors // no optimum: nothing is known of the errors
	}
	var inverse mat.SymDense
	if err := chol.InverseTo(&inverse); err != nil {
		return errors
	}
	for i := range errors {
		errors[i] = math.Sqrt(inverse.At(i, i))
	}
	return errors
}

// inParallel does something n times, on all processors.
func inParallel(n int, do func(i int)) {
	var wg sync.WaitGroup
	next := make(chan int)
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for i := range next {
				do(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wg.Wait()
}
