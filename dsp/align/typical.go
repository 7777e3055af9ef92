package align

import (
	"maps"
	"slices"

	"gonum.org/v1/gonum/floats"

	"earshot/dsp/internal/num"
)

// ontoMostTypical moves each sound to where its waveform within w is most like that of
// one of them, the one most like them all; those not alike enough stay, and so does the
// middle of the others. Against a mean two groups of sounds that lie a cycle apart may each stay
// where they are, being most of what they are compared with; a single sound has one place.
func (a *aligned) ontoMostTypical(w stretch) {
	var cuts [][]float64
	for i, x := range a.x {
		cuts = append(cuts, unit(cut(x, a.shift[i], w.from, w.to)))
	}
	typical := cuts[mostTypical(cuts)]
	moves := map[int]float64{}
	for i, x := range a.x {
		wide := cut(x, a.shift[i], w.from-w.reach, w.to+w.reach)
		if lag, rho := fineLag(wide, typical, w.reach); rho >= trustedLikeness {
			moves[i] = lag
		}
	}
	middle := num.Median(slices.Collect(maps.Values(moves)))
	for i, move := range moves {
		a.shift[i] += move - middle
	}
}

// mostTypical is the index of the row most like the sum of all, each with a norm of 1.
func mostTypical(rows [][]float64) (typical int) {
	sum := sumOf(rows)
	for i, row := range rows {
		if floats.Dot(row, sum) > floats.Dot(rows[typical], sum) {
			typical = i
		}
	}
	return typical
}
