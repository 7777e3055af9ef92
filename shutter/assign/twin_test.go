package assign

import (
	"math"
	"testing"
)

// layingPath is one way of laying firings: the step at hand at each, and whether
// the firing is one of that step's.
type layingPath struct {
	step   []int
	placed []bool
}

// allLayingPaths lists every way of laying n firings against the steps in order.
func allLayingPaths(n, steps int) []layingPath {
	if n == 0 {
		return []layingPath{{}}
	}
	var all []layingPath
	for _, p := range allLayingPaths(n-1, steps) {
		from := 0
		if n > 1 {
			from = p.step[n-2]
		}
		for s := from; s < steps; s++ {
			for _, placed := range []bool{false, true} {
				all = append(all, layingPath{append(append([]int{}, p.step...), s), append(append([]bool{}, p.placed...), placed)})
			}
		}
	}
	return all
}

// chance is that of the path and of what was heard, by following it event for event
// and carrying the offset along as a plain matrix product.
func (p layingPath) chance(c *chain) float64 {
	offset, w, n, s := c.prior, 1.0, 0, -1
	goTo := func(next int, between float64) {
		for s++; s < next; s++ { // settings passed over
			w *= c.laws[s][0]
			if s+1 < len(c.laws) {
				offset = denselyMoved(c, &offset, s+1)
			}
		}
		w *= (1 - c.laws[s][0]) * between
		n = 0
	}
	begin := func(next int, between float64) { // from the first setting, or late
		late := [offsets]float64{}
		on := c.prior
		for k := 0; k <= next; k++ {
			if k > 0 {
				on = scaled(&on, c.laws[k-1][0])
				late = scaled(&late, c.laws[k-1][0])
				on, late = denselyMoved(c, &on, k), denselyMoved(c, &late, k)
			}
			if k < len(c.steps) {
				addScaled(&late, &c.prior, lateStart/float64(len(c.steps)))
			}
		}
		offset = scaled(&on, 1-lateStart)
		addScaled(&offset, &late, 1)
		s, w = next, (1-c.laws[next][0])*between
	}
	for i := range p.step {
		within, between := c.pauses.densities(c.gaps[i])
		switch {
		case p.step[i] == s:
			w *= (1 - c.laws[s].endsAt(n)) * within
		case s < 0:
			begin(p.step[i], between)
		default:
			w *= c.laws[s].endsAt(n)
			offset = denselyMoved(c, &offset, s+1)
			goTo(p.step[i], between)
		}
		if !p.placed[i] {
			w *= extraChance * c.extra[i]
			continue
		}
		n++
		for b := range offset {
			offset[b] *= (1 - extraChance) * c.placed[i][s][b]
		}
	}
	ends := c.laws[s].endsAt(n)
	for _, l := range c.laws[s+1:] {
		ends *= l[0]
	}
	if told := len(c.steps); s < told && n > 0 {
		ends = (1-cutShort)*ends + cutShort/float64(told)
	}
	return w * ends * sumOf(&offset)
}

// denselyMoved is moved as a matrix product, the matrix taken from movedBack.
func denselyMoved(c *chain, p *[offsets]float64, s int) (q [offsets]float64) {
	for to := range q {
		var unit [offsets]float64
		unit[to] = 1
		column := c.movedBack(&unit, s)
		q[to] = dot(p, &column)
	}
	return q
}

func TestTheChainsSumsAreThoseOverEveryWayOfLaying(t *testing.T) {
	firings := layingOf(0.9, 0.3, 0.28, 0.14)
	firings[2].Open, firings[2].Close = firings[2].Open+5, firings[2].Close+5
	for _, told := range []string{"1 1/2 1/4", "1x2 1/4x1 1/8", "1/4x1 1/8x2", "1x1 1/2x1 1/4x1"} {
		t.Run(told, func(t *testing.T) {
			steps := layingSteps(t, told)
			m := newLayModel(firings, steps)
			for _, h := range habits(steps, len(firings)) {
				c := newChain(m, h.laws, usualPauses(m.gaps), &scratch{cells: make([][]cell, len(firings))})
				compareWithEveryPath(t, c, c.forwardBackward())
			}
		})
	}
}

func compareWithEveryPath(t *testing.T, c *chain, got posterior) {
	t.Helper()
	want, total := newPosterior(len(c.gaps), len(c.laws)), 0.0
	for _, p := range allLayingPaths(len(c.gaps), len(c.laws)) {
		chance := p.chance(c)
		total += chance
		for i, s := range p.step {
			if p.placed[i] {
				want.at[i][s] += chance
			}
			if i > 0 && s != p.step[i-1] || i == 0 {
				want.turned[i] += chance
			}
		}
	}
	if math.Abs(got.log-math.Log(total)) > 1e-6 {
		t.Errorf("log of the chance is %.9f, want %.9f", got.log, math.Log(total))
	}
	for i := range want.at {
		if d := got.turned[i] - want.turned[i]/total; math.Abs(d) > 1e-6 {
			t.Errorf("the dial was turned before firing %d with %.7f, want %.7f", i, got.turned[i], want.turned[i]/total)
		}
		for s := range want.at[i] {
			if d := got.at[i][s] - want.at[i][s]/total; math.Abs(d) > 1e-6 {
				t.Errorf("firing %d is at step %d with %.7f, want %.7f", i, s, got.at[i][s], want.at[i][s]/total)
			}
		}
	}
}

// The law of a run's length is a proper distribution: its chances add up to 1.
func TestARunsLengthHasChancesThatAddUp(t *testing.T) {
	for _, law := range []countLaw{aboutCount(1, toldSlip), aboutCount(3, toldSlip), aboutCount(5, equalSlip), anyCount(1), anyCount(4)} {
		left, sum := 1-law[0], law[0]
		for n := 1; n < 500; n++ {
			sum += left * law.endsAt(n)
			left *= 1 - law.endsAt(n)
		}
		if math.Abs(sum-1) > 1e-9 {
			t.Errorf("chances under %v add up to %g", law, sum)
		}
	}
}

func TestTheCountToldIsByFarTheLikeliest(t *testing.T) {
	law := aboutCount(3, toldSlip)
	left := 1 - law[0]
	for n := 1; n <= 5; n++ {
		chance := left * law.endsAt(n)
		left *= 1 - law.endsAt(n)
		if n == 3 && chance < 0.9 || n != 3 && chance > 0.05 {
			t.Errorf("a run of 3 told has %d with %.3f", n, chance)
		}
	}
}

// Carrying offsets forward and valuing them backward are two views of one matrix.
func TestMovingOffsetsForwardAndBackwardAgrees(t *testing.T) {
	m := newLayModel(nil, layingSteps(t, "1 1/2 1/1000 1"))
	for s := 1; s < 4; s++ {
		for from := range offsets {
			var p [offsets]float64
			p[from] = 1
			forward := m.moved(&p, s)
			if math.Abs(sumOf(&forward)-1) > 1e-12 {
				t.Fatalf("moving to step %d turns chance 1 into %g", s, sumOf(&forward))
			}
			for to := range offsets {
				var worth [offsets]float64
				worth[to] = 1
				back := m.movedBack(&worth, s)
				if math.Abs(back[from]-forward[to]) > 1e-15 {
					t.Fatalf("step %d: from %d to %d is %g forward and %g back", s, from, to, forward[to], back[from])
				}
			}
		}
	}
}
