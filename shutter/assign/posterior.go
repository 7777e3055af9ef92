package assign

import "math"

// pauseRounds is how often the pauses are learnt. A third round changes none of the rates
// that the tests measure.
const pauseRounds = 2

// posterior is what is known of each firing once all ways of laying are taken together.
type posterior struct {
	at     [][]float64 // chance that firing i belongs to step s, the untold one last
	turned []float64   // chance that the dial was turned before firing i
	log    float64     // natural log of the chance of all that was heard
}

func newPosterior(firings, steps int) posterior {
	w := posterior{at: make([][]float64, firings), turned: make([]float64, firings)}
	for i := range w.at {
		w.at[i] = make([]float64, steps)
	}
	return w
}

// posteriorOf averages over all habits, with the pauses as the firings themselves show
// them. It returns these pauses too.
func posteriorOf(m *layModel, habits []habit) (posterior, pauses) {
	mem := &scratch{cells: make([][]cell, len(m.gaps))}
	p := usualPauses(m.gaps)
	w, habits := averageHabits(m, habits, p, mem)
	for range pauseRounds {
		p = p.learn(m.gaps, w.turned)
		w, habits = averageHabits(m, habits, p, mem)
	}
	w.leaveUntold()
	return w, p
}

// leaveUntold removes the step after those told. Firings that belong to it belong to none of
// the settings.
func (w *posterior) leaveUntold() {
	for i, at := range w.at {
		w.at[i] = at[:len(at)-1]
	}
}

// averageHabits takes the posterior under each habit, and their mean weighted by how well the
// habits explain the firings. It returns the habits that explain them at all.
func averageHabits(m *layModel, habits []habit, p pauses, mem *scratch) (all posterior, likely []habit) {
	each, most := make([]posterior, len(habits)), math.Inf(-1)
	for k, h := range habits {
		each[k] = newChain(m, h.laws, p, mem).forwardBackward()
		each[k].log += math.Log(h.chance)
		most = max(most, each[k].log)
	}
	all = newPosterior(len(m.gaps), len(m.steps)+1)
	sum := 0.0
	for k, w := range each {
		if share := math.Exp(w.log - most); share > negligible {
			sum += share
			likely = append(likely, habits[k])
		}
	}
	for _, w := range each {
		all.add(w, math.Exp(w.log-most)/sum)
	}
	all.log = most + math.Log(sum)
	return all, likely
}

func (w *posterior) add(other posterior, share float64) {
	for i := range w.at {
		w.turned[i] += share * other.turned[i]
		for s := range w.at[i] {
			w.at[i][s] += share * other.at[i][s]
		}
	}
}

// forwardBackward runs the chain forward and backward over its firings, of which there
// is at least one (L. R. Rabiner, 1989).
func (c *chain) forwardBackward() posterior {
	n := len(c.gaps)
	w := newPosterior(n, len(c.laws))
	cells, scales := c.cells, make([]float64, n)
	var before []cell
	for i := range n {
		cells[i], scales[i] = c.advance(before, i)
		before = cells[i]
		w.log += math.Log(scales[i])
	}
	worth := c.ending(cells[n-1])
	for i := n - 1; i >= 0; i-- {
		total := 0.0
		for k := range cells[i] {
			total += dot(&cells[i][k].p, &worth[k])
		}
		if i == n-1 {
			w.log += math.Log(total)
		}
		for k := range cells[i] {
			at := &cells[i][k]
			w.at[i][at.step] += dot(&at.placed, &worth[k]) / total
			w.turned[i] += dot(&at.moved, &worth[k]) / total
		}
		if i > 0 {
			worth = c.back(cells[i-1], cells[i], worth, i)
			for k := range worth {
				worth[k] = scaled(&worth[k], 1/scales[i])
			}
		}
	}
	return w
}
