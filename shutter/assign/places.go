package assign

import (
	"fmt"

	"gonum.org/v1/gonum/floats"

	"earshot/shutter"
)

// minPosterior is the least chance of a firing's mark for which it is not in doubt. The tests
// show that firings above it are right far more often than that.
const minPosterior = 0.95

// nowhere is the place of a firing that belongs to none of the settings.
const nowhere = -1

// places returns the step of each firing, or nowhere, such that the steps are in
// order and the chances of the firings' places add up to the most.
func (w posterior) places() []int {
	steps := len(w.at[0])
	most := make([]float64, steps) // for the firings so far, the last of them at or before step s
	from := make([][]int, len(w.at))
	for i, at := range w.at {
		from[i] = make([]int, steps)
		best := 0
		for s := range steps {
			if most[s] > most[best] {
				best = s
			}
			from[i][s] = best
		}
		for s := steps - 1; s >= 0; s-- {
			most[s] = most[from[i][s]] + max(at[s], w.nowhere(i))
		}
	}
	places, s := make([]int, len(w.at)), 0
	for k := range most {
		if most[k] > most[s] {
			s = k
		}
	}
	for i := len(places) - 1; i >= 0; i-- {
		if places[i] = s; w.nowhere(i) > w.at[i][s] {
			places[i] = nowhere
		}
		s = from[i][s]
	}
	return places
}

// nowhere is the chance that firing i belongs to none of the settings.
func (w posterior) nowhere(i int) float64 { return max(0, 1-floats.Sum(w.at[i])) }

// doubts names the firings whose mark is in doubt. Two settings of the same mark
// are no reason to doubt it.
func (w posterior) doubts(places []int, steps []shutter.Step) []Doubt {
	var doubts []Doubt
	for i, p := range places {
		if p == nowhere {
			doubts = append(doubts, Doubt{i, "fits none of the settings told: a firing at another one, or another sound"})
			continue
		}
		mark := steps[p].Mark
		if chance, other := w.against(i, mark, steps); chance < minPosterior {
			doubts = append(doubts, Doubt{i, fmt.Sprintf("could be %s or %s: both fit about as well", mark.Label, other)})
		}
	}
	return doubts
}

// against returns the chance that firing i is at the mark, and the likeliest other.
func (w posterior) against(i int, mark shutter.Mark, steps []shutter.Step) (chance float64, other string) {
	chances := map[shutter.Mark]float64{}
	for s, c := range w.at[i] {
		chances[steps[s].Mark] += c
	}
	other, most := "none of the settings told", w.nowhere(i)
	for _, s := range steps {
		if s.Mark != mark && chances[s.Mark] > most {
			other, most = s.Mark.Label, chances[s.Mark]
		}
	}
	return chances[mark], other
}
