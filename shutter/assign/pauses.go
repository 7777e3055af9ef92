package assign

import (
	"math"
	"slices"
)

// The prior of the pauses of a clip, in natural-log units; common practice, no source. It
// counts as much as the stated numbers of pauses.
const (
	windingScatter = 0.3 // of pauses within a run
	turningScatter = 0.5 // of pauses in which the dial is turned
	turningLonger  = 0.4 // by which these are longer
	scatterWeight  = 4.0
	longerWeight   = 2.0
)

// pauses is what the pauses of one recording are like: Student's t with 3 degrees
// in the log of the pause, once within a run and once between runs.
type pauses struct {
	usual, scatter         float64
	longer, scatterTurning float64
}

// usualPauses supposes that the middle pause is a usual one.
func usualPauses(gaps []float64) pauses {
	p := pauses{scatter: windingScatter, longer: turningLonger, scatterTurning: turningScatter}
	known := slices.DeleteFunc(slices.Clone(gaps), math.IsNaN)
	if len(known) > 0 {
		slices.Sort(known)
		p.usual = known[(len(known)-1)/2]
	}
	return p
}

// densities returns those of a pause within a run and between two.
func (p pauses) densities(gap float64) (within, between float64) {
	if math.IsNaN(gap) {
		return 1, 1
	}
	return student3(gap-p.usual, p.scatter), student3(gap-p.usual-p.longer, p.scatterTurning)
}

// learn returns the pauses that fit best, turned[i] being the chance that the dial was turned
// in gap i. It is one step of expectation maximisation with the weights of Student's t
// (Lange, Little and Taylor 1989, from memory). Turning the dial never makes a pause shorter.
func (p pauses) learn(gaps, turned []float64) pauses {
	var within, between weighted
	for i, gap := range gaps {
		if !math.IsNaN(gap) {
			within.add(gap, 1-turned[i], student3Weight((gap-p.usual)/p.scatter))
			between.add(gap, turned[i], student3Weight((gap-p.usual-p.longer)/p.scatterTurning))
		}
	}
	next := p
	if within.u > 0 {
		next.usual = within.uy / within.u
	}
	next.longer = max(0, (between.uy-between.u*next.usual+longerWeight*turningLonger)/(between.u+longerWeight))
	next.scatter = within.scatter(next.usual, windingScatter)
	next.scatterTurning = between.scatter(next.usual+next.longer, turningScatter)
	return next
}

// student3Weight is how much a value z scales from the middle counts.
func student3Weight(z float64) float64 { return 4 / (3 + z*z) }

// weighted holds sums over pauses y: of the chances r that they are of this kind, and
// of u = r·(Student's weight), u·y and u·y².
type weighted struct{ r, u, uy, uyy float64 }

func (w *weighted) add(y, chance, weight float64) {
	u := chance * weight
	w.r += chance
	w.u += u
	w.uy += u * y
	w.uyy += u * y * y
}

func (w *weighted) scatter(middle, supposed float64) float64 {
	squares := max(0, w.uyy-2*middle*w.uy+middle*middle*w.u)
	return math.Sqrt((scatterWeight*supposed*supposed + squares) / (scatterWeight + w.r))
}
