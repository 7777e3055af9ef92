package assign

import (
	"gonum.org/v1/gonum/floats"

	"earshot/shutter"
)

// How many firings a run has. Common practice, no source; see layModel.
const (
	toldSlip  = 0.03  // against the count told: one missed, fired again or made up, each
	equalSlip = 0.08  // against the count that most settings have, where none was told
	moreSlips = 0.3   // each further one, given one
	skipped   = 0.001 // a setting told and never fired, or never heard

	cutShort  = 0.05  // that a recording stops before the last of the settings was fired
	lateStart = 0.005 // that it starts after the first of them was

	moreFired     = 0.02    // that settings were fired after the last one told
	endsAfterOne  = 0.1     // that a run at a setting nobody told is one firing only
	endsAfterMore = 1.0 / 3 // that it ends there, after each further one

	equalChance = 0.7 // that a person who tells no counts fires each setting alike often
)

// countLaw is the chance that a run ends at its n-th firing if it has that many. Entry 0 is
// for a setting without a firing. The last entry holds for every later firing too.
type countLaw []float64

// endsAt returns the chance that a run of n firings ends there. One that is
// begun has at least one firing.
func (l countLaw) endsAt(n int) float64 {
	if n == 0 {
		return 0
	}
	return l[min(n, len(l)-1)]
}

// aboutCount is the law of runs that should have count firings: each slip up or
// down has the chance slip for the first and moreSlips for each further one.
func aboutCount(count int, slip float64) countLaw {
	weights := make([]float64, count+3)
	weights[count] = 1
	for n, w := count-1, slip; n >= 0; n, w = n-1, w*moreSlips {
		weights[n] = w
	}
	weights[0] = max(weights[0], skipped)
	for n, w := count+1, slip; n < len(weights); n, w = n+1, w*moreSlips {
		weights[n] = w
	}
	weights[len(weights)-1] /= 1 - moreSlips // and all the longer ones
	law, tail := make(countLaw, len(weights)), floats.Sum(weights)
	for n, w := range weights {
		law[n] = w / tail
		tail -= w
	}
	law[len(law)-1] = 1 - moreSlips
	return law
}

// anyCount is the law of runs of which only the mean length is known.
func anyCount(mean float64) countLaw { return countLaw{skipped, 1 / max(mean, 1)} }

// habit is one supposition about the number of firings at each setting.
type habit struct {
	laws   []countLaw
	chance float64
}

// habits lists the hypotheses about the counts. Where counts were told, these hold. Where they
// were not, either every such setting has the same count, or the counts vary.
func habits(steps []shutter.Step, firings int) []habit {
	told, untold := 0, 0
	for _, s := range steps {
		told += s.Count
		if s.Count == 0 {
			untold++
		}
	}
	if untold == 0 {
		return []habit{{lawsWith(steps, nil), 1}}
	}
	mean := float64(max(firings-told, untold)) / float64(untold)
	low, high := max(1, int(mean)-1), int(mean)+3
	hs := []habit{{lawsWith(steps, anyCount(mean)), 1 - equalChance}}
	for count := low; count <= high; count++ {
		hs = append(hs, habit{lawsWith(steps, aboutCount(count, equalSlip)), equalChance / float64(high-low+1)})
	}
	return hs
}

// lawsWith gives each setting the law of the count told for it, or the law untold. The
// setting after those told has a law of its own.
func lawsWith(steps []shutter.Step, untold countLaw) []countLaw {
	laws := make([]countLaw, len(steps)+1)
	laws[len(steps)] = countLaw{1 - moreFired, endsAfterOne, endsAfterMore}
	for i, s := range steps {
		laws[i] = untold
		if s.Count > 0 {
			laws[i] = aboutCount(s.Count, toldSlip)
		}
	}
	return laws
}
