package shutter

// ending returns the worth of the cells after the last firing: the chance that
// nothing follows.
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

// lastAt is the chance that nothing follows n firings at step s: its run ends and all
// later settings are passed over, or the recording was cut short there, be it in the
// middle of a run.
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

// back returns the worth of the cells before firing i, the chance of all that
// follows, from the worth of those after it.
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
