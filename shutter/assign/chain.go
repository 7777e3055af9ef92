package assign

import "slices"

// negligible is the chance, against that of the likeliest, below which a way of
// laying the firings is given up.
const negligible = 1e-9

// chain is a hidden Markov chain over the firings under one habit: see layModel.
// Its sums run forward and backward (Baum et al. 1970) over the cells worth keeping.
type chain struct {
	*layModel
	laws   []countLaw
	pauses pauses
	first  []int // index of cell (step, 0) in a table of all cells
	*scratch
}

// scratch is memory that chains over the same firings use one after the other.
type scratch struct {
	cells [][]cell              // those after each firing
	grown []cell                // all those after the firing at hand, the negligible too
	worth [2][][offsets]float64 // of the cells before and after the firing at hand
	table []int                 // place of a cell in the list at hand, -1 where absent
}

// room returns space for the backward chances of n cells. It is not the space that the call
// before returned.
func (m *scratch) room(n int) [][offsets]float64 {
	m.worth[0], m.worth[1] = m.worth[1], slices.Grow(m.worth[0][:0], n)[:n]
	clear(m.worth[1])
	return m.worth[1]
}

// cell is a hidden state after a firing, with the chance of each offset there.
type cell struct {
	step, n int // n firings at the step so far
	p       [offsets]float64
	placed  [offsets]float64 // the part of p in which the firing is one of the n
	moved   [offsets]float64 // the part of p in which the dial was turned before it
}

func newChain(m *layModel, laws []countLaw, p pauses, mem *scratch) *chain {
	c := &chain{layModel: m, laws: laws, pauses: p, scratch: mem}
	size := 0
	for _, l := range laws {
		c.first = append(c.first, size)
		size += len(l)
	}
	c.table = slices.Grow(c.table[:0], size)[:size]
	return c
}

// place is where cell (step, n) is in the table. Runs that are longer than their law
// distinguishes share a cell.
func (c *chain) place(step, n int) int { return c.first[step] + min(n, len(c.laws[step])-1) }

func (c *chain) clear() {
	for i := range c.table {
		c.table[i] = -1
	}
}

// advance returns the cells after firing i from those before it, nil for the first. They are
// ordered by step. Their chances are scaled to add up to 1; scale is their sum before that.
func (c *chain) advance(before []cell, i int) (after []cell, scale float64) {
	c.clear()
	grow := growing{chain: c, firing: i, cells: c.grown[:0]}
	within, between := c.pauses.densities(c.gaps[i])
	passing, from := scaled(&c.prior, 1-lateStart), 0 // the chances that the run of an earlier step ended, and step from is next
	if before != nil {
		passing, from = [offsets]float64{}, before[0].step
	}
	for s := from; s < len(c.laws); s++ {
		if before == nil && i == 0 && s < len(c.steps) {
			addScaled(&passing, &c.prior, lateStart/float64(len(c.steps)))
		}
		skip := c.laws[s][0]
		grow.add(s, 0, scaled(&passing, (1-skip)*between), true)
		leaving := scaled(&passing, skip)
		for len(before) > 0 && before[0].step == s {
			b := &before[0]
			ends := c.laws[s].endsAt(b.n)
			grow.add(s, b.n, scaled(&b.p, (1-ends)*within), false)
			addScaled(&leaving, &b.p, ends)
			before = before[1:]
		}
		if s+1 < len(c.laws) {
			passing = c.moved(&leaving, s+1)
		}
	}
	c.grown = grow.cells
	kept, scale := keep(grow.cells)
	return append(c.cells[i][:0], kept...), scale
}

// growing is a list of cells being filled with what leads to firing i.
type growing struct {
	*chain
	firing int
	cells  []cell
}

// add lets the firing follow on from n firings at step s: as the next of them, or
// as none of them.
func (g *growing) add(s, n int, p [offsets]float64, moved bool) {
	if sumOf(&p) == 0 {
		return
	}
	none := scaled(&p, extraChance*g.extra[g.firing])
	for b := range p {
		p[b] *= (1 - extraChance) * g.layModel.placed[g.firing][s][b]
	}
	g.put(s, n, &none, false, moved)
	g.put(s, n+1, &p, true, moved)
}

func (g *growing) put(s, n int, p *[offsets]float64, placed, moved bool) {
	at := g.place(s, n)
	if g.table[at] < 0 {
		g.table[at] = len(g.cells)
		g.cells = append(g.cells, cell{step: s, n: min(n, len(g.laws[s])-1)})
	}
	c := &g.cells[g.table[at]]
	addScaled(&c.p, p, 1)
	if placed {
		addScaled(&c.placed, p, 1)
	}
	if moved {
		addScaled(&c.moved, p, 1)
	}
}

// keep drops the negligible cells and brings the chances to a sum of 1.
func keep(cells []cell) (kept []cell, scale float64) {
	most := 0.0
	for i := range cells {
		most = max(most, sumOf(&cells[i].p))
	}
	kept = cells[:0]
	for i := range cells {
		if mass := sumOf(&cells[i].p); mass >= negligible*most {
			kept = append(kept, cells[i])
			scale += mass
		}
	}
	for i := range kept {
		c := &kept[i]
		c.p, c.placed, c.moved = scaled(&c.p, 1/scale), scaled(&c.placed, 1/scale), scaled(&c.moved, 1/scale)
	}
	return kept, scale
}

// ending returns the backward chances of the cells after the last firing: that nothing
// follows.
func (c *chain) ending(cells []cell) [][offsets]float64 {
	worth := c.room(len(cells))
	for i, at := range cells {
		w := c.lastAt(at.step, at.n)
		for b := range worth[i] {
			worth[i][b] = w
		}
	}
	return worth
}

// lastAt is the chance that nothing follows n firings at step s. Either its run ends and all
// later settings are passed over, or the recording ends there, perhaps within a run.
func (c *chain) lastAt(s, n int) float64 {
	w := c.laws[s].endsAt(n)
	for _, l := range c.laws[s+1:] {
		w *= l[0]
	}
	if n == 0 || s == len(c.steps) {
		return w
	}
	return (1-cutShort)*w + cutShort/float64(len(c.steps))
}

// back returns the backward chances of the cells before firing i, those of all that follows,
// from the backward chances of the cells after it.
func (c *chain) back(before, after []cell, worthAfter [][offsets]float64, i int) [][offsets]float64 {
	c.clear()
	for k, a := range after {
		c.table[c.place(a.step, a.n)] = k
	}
	within, between := c.pauses.densities(c.gaps[i])
	worth := c.room(len(before))
	var leaving [offsets]float64 // worth of ending a run at step s
	k := len(before) - 1
	for s := max(after[len(after)-1].step, before[k].step); s >= before[0].step; s-- {
		for ; k >= 0 && before[k].step == s; k-- {
			ends := c.laws[s].endsAt(before[k].n)
			on := c.worthOf(worthAfter, i, s, before[k].n)
			worth[k] = scaled(&on, (1-ends)*within)
			addScaled(&worth[k], &leaving, ends)
		}
		skip := c.laws[s][0]
		begin := c.worthOf(worthAfter, i, s, 0)
		begin = scaled(&begin, (1-skip)*between)
		addScaled(&begin, &leaving, skip)
		if s > 0 {
			leaving = c.movedBack(&begin, s)
		}
	}
	return worth
}

// worthOf is what firing i is worth that follows on from n firings at step s.
func (c *chain) worthOf(worthAfter [][offsets]float64, i, s, n int) (w [offsets]float64) {
	if k := c.table[c.place(s, n)]; k >= 0 {
		addScaled(&w, &worthAfter[k], extraChance*c.extra[i])
	}
	if k := c.table[c.place(s, n+1)]; k >= 0 {
		for b, v := range worthAfter[k] {
			w[b] += (1 - extraChance) * c.layModel.placed[i][s][b] * v
		}
	}
	return w
}
