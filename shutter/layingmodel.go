package shutter

import (
	"math"
)

// What is taken for granted about shutters and the people who fire them. None is
// from a published source but the first; they are common practice, no source. The
// rates of right, doubtful and wrong places that follow from them are measured over
// simulated shutters in the tests, which share none of these figures.
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

// The offsets from nominal that are told apart, in stops.
const (
	offsetLow  = -2.0
	offsetStep = 0.125
	offsets    = 41 // to +3
)

// layModel is the firings and settings in the terms by which they are weighed: a
// chain over the firings whose hidden state is the setting, the number of its
// firings so far, and by how many stops the shutter is off there. The offset moves
// little from setting to setting, so it is the change of duration from one run to
// the next, more than nearness to a mark, that tells where a run ends.
type layModel struct {
	steps  []Step
	placed [][][offsets]float64 // density of firing i at setting s, by offset
	extra  []float64            // density of firing i at no setting
	gaps   []float64            // natural log of the pause before firing i in s; NaN where not known
	prior  [offsets]float64     // offset at the first setting, and at an uneven one
	drift  []band               // offset's move from setting s-1 to s; [0] is not used
}

func newLayModel(firings []Firing, steps []Step) *layModel {
	m := &layModel{steps: steps, prior: offsetPrior(), gaps: logGaps(firings), drift: make([]band, len(steps))}
	for s := 1; s < len(steps); s++ {
		m.drift[s] = driftBetween(steps[s-1].Mark.Nominal, steps[s].Mark.Nominal)
	}
	for _, f := range firings {
		m.extra = append(m.extra, extraDensity(f))
		m.placed = append(m.placed, placedDensity(f, steps))
	}
	return m
}

func offsetAt(bin int) float64 { return offsetLow + offsetStep*float64(bin) }

func offsetPrior() (p [offsets]float64) {
	sum := 0.0
	for b := range p {
		p[b] = student3(offsetAt(b)-usualOffset, offsetScale)
		sum += p[b]
	}
	for b := range p {
		p[b] /= sum
	}
	return p
}

// placedDensity is the density of a firing in log2 duration for each setting and offset.
func placedDensity(f Firing, steps []Step) [][offsets]float64 {
	at := make([][offsets]float64, len(steps))
	for s, step := range steps {
		for b := range offsets {
			at[s][b] = hangChance
			if x, timed := deviation(f, step.Mark); timed {
				at[s][b] = (1 - hangChance) * timedDensity(f, x-offsetAt(b))
			}
		}
	}
	return at
}

// timedDensity is that of a firing x stops longer than is usual at its setting. One
// that is unfit, because samples are lost in it, is as likely as not wrong in time.
func timedDensity(f Firing, x float64) float64 {
	fault := faultChance
	if f.Unfit != "" {
		fault = 0.5
	}
	usual := student3(x, math.Hypot(scatterScale, stopsOf(f.U, f.Duration())))
	faulty := 0.0
	if x < longestFault {
		expected := math.Log2(f.Duration()/shortestHeard) - x // stops above the shortest
		faulty = 1 / max(longestFault+expected, 1)
	}
	return (1-fault)*usual + fault*faulty
}

func extraDensity(f Firing) float64 {
	if _, timed := deviation(f, Mark{Nominal: 1}); !timed {
		return hangChance
	}
	return (1 - hangChance) / math.Log2(longestHeard/shortestHeard)
}

// student3 is the density of Student's t with 3 degrees of freedom, at x for a scale.
func student3(x, scale float64) float64 {
	z := 1 + x*x/(3*scale*scale)
	return 2 / (math.Pi * math.Sqrt(3) * scale * z * z)
}

// logGaps returns the pauses before the firings, from closing to next opening.
// Across clips, and after a firing that never closed, none is known.
func logGaps(firings []Firing) []float64 {
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

// band is a symmetric kernel over offsets: band[k] is the weight of a move by ±k bins.
type band []float64

// driftBetween is the kernel by which the offset moves between two settings. It is
// wider the further they lie apart, and where the blades' stroke begins to tell.
func driftBetween(from, to float64) band {
	stroke := math.Log2(1+strokeTime/to) - math.Log2(1+strokeTime/from)
	apart := math.Max(math.Abs(math.Log2(from/to)), 0.25)
	scale := math.Hypot(driftScale*math.Sqrt(apart), stroke)
	var k band
	for move := 0.0; move <= 3*scale; move += offsetStep {
		k = append(k, math.Exp(-move*move/(2*scale*scale)))
	}
	sum := 2*sumOf(k) - k[0]
	for i := range k {
		k[i] /= sum
	}
	return k
}

// moved carries a distribution over offsets on to setting s, uneven or not.
func (m *layModel) moved(p *[offsets]float64, s int) (q [offsets]float64) {
	k, total := m.drift[s], sumOf(p[:])
	for b, w := range p {
		for move, weight := range k {
			q[clampOffset(b-move)] += (1 - unevenChance) * weight * w
			if move > 0 {
				q[clampOffset(b+move)] += (1 - unevenChance) * weight * w
			}
		}
	}
	for b := range q {
		q[b] += unevenChance * total * m.prior[b]
	}
	return q
}

// movedBack is the transpose of moved: the worth at each offset of going on to
// setting s, where worth is what the offsets there are worth.
func (m *layModel) movedBack(worth *[offsets]float64, s int) (q [offsets]float64) {
	k, uneven := m.drift[s], 0.0
	for b, p := range m.prior {
		uneven += unevenChance * p * worth[b]
	}
	for b := range q {
		q[b] = uneven
		for move, weight := range k {
			q[b] += (1 - unevenChance) * weight * worth[clampOffset(b-move)]
			if move > 0 {
				q[b] += (1 - unevenChance) * weight * worth[clampOffset(b+move)]
			}
		}
	}
	return q
}

func clampOffset(b int) int { return min(max(b, 0), offsets-1) }

func sumOf(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum
}
