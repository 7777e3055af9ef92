package assign

import (
	"math"

	"earshot/shutter"
)

// These constants describe shutters and the people who fire them. Only the first has a
// published source; the others are common practice, no source. The tests measure the rates
// of right, doubtful and wrong places over simulated shutters, which share none of these
// figures. Halving or doubling any one of them puts at most 0.4 % more of the firings in
// doubt.
const (
	// A blade stroke takes about 2 ms, as a film maker's guide of 1979 implies in
	// its table of leaf-shutter corrections; fast speeds drift off by as much.
	strokeTime = 0.002 // s

	usualOffset                 = 0.2        // stops: old shutters run slow rather than fast
	offsetScale                 = 0.5        // stops: how far one shutter is off from another, Student t with 3 degrees
	driftScale                  = 0.15       // stops: how far the offset moves on in one stop along the dial
	unevenChance                = 0.05       // of a setting that is off by itself, whatever its neighbours do
	scatterScale                = 0.1        // stops: between firings at one setting, Student t with 3 degrees
	faultChance                 = 0.05       // of a firing that closes early or late by any amount
	longestFault                = 2.0        // stops beyond nominal that a faulty firing lasts at most
	hangChance                  = 0.02       // of a firing that never closes
	extraChance                 = 0.01       // of a firing at none of the settings, or a sound taken for one
	shortestHeard, longestHeard = 0.001, 8.0 // s: the durations that such a sound may have
)

// layModel is a hidden Markov model of the firings. Its state is the setting, the number of
// its firings so far, and the offset, which is by how many stops the shutter is off there.
// The offset changes little from setting to setting. So the change of duration from one run
// to the next tells where a run ends, more than how near a firing is to a mark. After the
// settings told comes an untold one, for firings of any duration that were made after them.
type layModel struct {
	steps  []shutter.Step       // those told
	placed [][][offsets]float64 // density of firing i at setting s, by offset
	extra  []float64            // density of firing i at no setting
	gaps   []float64            // natural log of the pause before firing i in s; NaN where not known
	prior  [offsets]float64     // offset at the first setting, and at an uneven one
	drift  []band               // offset's move from setting s-1 to s; [0] is not used
}

func newLayModel(firings []shutter.Firing, steps []shutter.Step) *layModel {
	for _, s := range steps {
		if !(s.Mark.Nominal > 0) || math.IsInf(s.Mark.Nominal, 0) {
			panic("assign: a mark without a nominal time")
		}
	}
	m := &layModel{steps: steps, prior: offsetPrior(), gaps: logGaps(firings), drift: make([]band, len(steps)+1)}
	for s := 1; s < len(steps); s++ {
		m.drift[s] = driftBetween(steps[s-1].Mark.Nominal, steps[s].Mark.Nominal)
	}
	m.drift[len(steps)] = band{1}
	for _, f := range firings {
		m.extra = append(m.extra, extraDensity(f))
		m.placed = append(m.placed, placedDensity(f, steps))
	}
	return m
}

// placedDensity is the density of a firing in log2 duration for each setting, the
// untold one last, and offset.
func placedDensity(f shutter.Firing, steps []shutter.Step) [][offsets]float64 {
	at := make([][offsets]float64, len(steps)+1)
	untold := extraDensity(f)
	for b := range offsets {
		at[len(steps)][b] = untold
	}
	d := densityOf(f)
	for s, step := range steps {
		x, timed := f.DeviationFrom(step.Mark)
		for b := range offsets {
			at[s][b] = hangChance
			if timed && !f.Hangs(step.Mark) {
				at[s][b] = (1 - hangChance) * d.at(x-offsetAt(b))
			}
		}
	}
	return at
}

// firingDensity is the density of a firing that closed.
type firingDensity struct {
	length float64 // stops above the shortest heard
	scale  float64 // stops
	fault  float64 // chance that its duration says nothing
}

// densityOf takes the time of a firing that is unfit, because samples are lost in it, to be
// wrong with a chance of one half.
func densityOf(f shutter.Firing) firingDensity {
	d := firingDensity{fault: faultChance, scale: scatterScale}
	if f.Unfit != "" {
		d.fault = 0.5
	}
	if f.Duration() > 0 {
		d.length = math.Log2(f.Duration() / shortestHeard)
		d.scale = math.Hypot(scatterScale, shutter.StopsOf(f.U, f.Duration()))
	}
	return d
}

// at is the density where the firing is x stops longer than is usual at its
// setting. A faulty one has any duration from the shortest to the longest.
func (d firingDensity) at(x float64) float64 {
	density := (1 - d.fault) * student3(x, d.scale)
	if x < longestFault {
		density += d.fault / max(d.length-x+longestFault, 1)
	}
	return density
}

func extraDensity(f shutter.Firing) float64 {
	if _, timed := f.DeviationFrom(shutter.Mark{Nominal: 1}); !timed {
		return hangChance
	}
	return (1 - hangChance) / math.Log2(longestHeard/shortestHeard)
}

// student3 is the density of Student's t with 3 degrees of freedom, at x for a scale:
// distuv.StudentsT for any degrees of freedom takes 150 ns for it, and this 12.
func student3(x, scale float64) float64 {
	z := 1 + x*x/(3*scale*scale)
	return 2 / (math.Pi * math.Sqrt(3) * scale * z * z)
}

// logGaps returns the pauses before the firings, from closing to next opening.
// Across clips, and after a firing that never closed, none is known.
func logGaps(firings []shutter.Firing) []float64 {
	gaps := make([]float64, len(firings))
	for i := range firings {
		gaps[i] = math.NaN()
		if i == 0 || firings[i-1].Clip != firings[i].Clip || !firings[i-1].Closed {
			continue
		}
		if gap := firings[i].Open - firings[i-1].Close; gap > 0 && !math.IsInf(gap, 0) {
			gaps[i] = math.Log(gap)
		}
	}
	return gaps
}
