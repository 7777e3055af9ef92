package assign

import (
	"math"

	"earshot/shutter"
)

// otherDial holds, after a firing, the chance of each level of duration for the run
// under way: where that firing began it, and where it went on with it.
type otherDial struct{ begun, goneOn []float64 }

// ends returns the chance that the run under way ends here.
func (d otherDial) ends() float64 {
	sum := 0.0
	for b := range d.begun {
		sum += endsAfterOne*d.begun[b] + endsAfterMore*d.goneOn[b]
	}
	return sum
}

// logOther is the natural log of the chance of the firings, at least one, if they were made
// at other settings than those told. The settings are then a Markov chain of levels of
// duration that are all equally likely. Firings and pauses follow layModel and p, so that the
// result can be compared with posterior.log.
func logOther(firings []shutter.Firing, m *layModel, p pauses) float64 {
	levels := int(math.Log2(longestHeard/shortestHeard)/offsetStep) + 1
	log := 0.0
	var d otherDial
	for i, f := range firings {
		next := otherDial{make([]float64, levels), make([]float64, levels)}
		within, between := p.densities(m.gaps[i])
		begins := 1.0 / float64(levels)
		if i > 0 {
			begins *= between * d.ends()
		}
		density, sum := densityOf(f), 0.0
		x, timed := f.DeviationFrom(shutter.Mark{Nominal: shortestHeard})
		for b := range levels {
			here := hangChance
			if timed {
				here = (1 - hangChance) * density.at(x-offsetStep*float64(b))
			}
			here = (1-extraChance)*here + extraChance*m.extra[i]
			next.begun[b] = here * begins
			if i > 0 {
				next.goneOn[b] = here * within * ((1-endsAfterOne)*d.begun[b] + (1-endsAfterMore)*d.goneOn[b])
			}
			sum += next.begun[b] + next.goneOn[b]
		}
		for b := range levels {
			next.begun[b] /= sum
			next.goneOn[b] /= sum
		}
		log += math.Log(sum)
		d = next
	}
	return log + math.Log(d.ends())
}
