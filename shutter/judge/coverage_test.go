package judge

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"earshot/shutter"
	"earshot/shutter/assign"
)

var coverageShutters = flag.Int("coverage-shutters", 3000, "simulated shutters in each case of what U95 holds")

// coverageShutter is an invented shutter, fired in a simulation of the statistics
// alone: 1 to 1/30 of the modern series, the slow four with buzz.
type coverageShutter struct {
	firings   int        // at each speed
	scatter   [6]float64 // standard deviation from firing to firing, stops
	deviation [6]float64 // true mean deviation of the light, stops
}

// coverageMarks are 1 to 1/30, the exact times written out.
func coverageMarks() []shutter.Mark {
	return []shutter.Mark{{Label: "1", Nominal: 1}, {Label: "1/2", Nominal: 0.5}, {Label: "1/4", Nominal: 0.25}, {Label: "1/8", Nominal: 0.125}, {Label: "1/15", Nominal: 0.0625}, {Label: "1/30", Nominal: 0.03125}}
}

// heard returns what a recorder hears of the shutter: one edge error for the lens,
// one clock error for the recorder, an onset error for the clip and one at each firing.
func (s coverageShutter) heard(rnd *rand.Rand) ([]shutter.Firing, assign.Laying) {
	const own, common = 20e-6, 30e-6 // standard uncertainties of a duration, s
	shared := common * rnd.NormFloat64()
	edge := (2*rnd.Float64() - 1) * 2e-3
	clock := 1 + (2*rnd.Float64()-1)*100e-6
	var firings []shutter.Firing
	var laying assign.Laying
	at := 1.0
	for k, m := range coverageMarks() {
		run := assign.Run{Mark: m}
		for range s.firings {
			light := m.Nominal * math.Exp2(s.deviation[k]+s.scatter[k]*rnd.NormFloat64())
			sound := (light+edge)*clock + shared + own*rnd.NormFloat64()
			run.Firings = append(run.Firings, len(firings))
			firings = append(firings, shutter.Firing{Open: at, Close: at + sound, Closed: true, U: math.Hypot(own, common), Common: common, Edge: shutter.EdgeStop, Buzz: shutter.Buzz{Heard: k < 4}})
			at += sound + 3
		}
		laying.Runs = append(laying.Runs, run)
	}
	return firings, laying
}

// coverageCount counts how often mean ± U95 held the truth at one speed: of all
// shutters, and of those whose mean is given.
type coverageCount struct{ all, held, given, givenHeld int }

func (c *coverageCount) add(t *trial, truth float64) {
	holds := math.Abs(t.figures.Deviation-truth) <= t.figures.U95
	c.all++
	if holds {
		c.held++
	}
	if !t.speed.Summary.MeanHidden {
		c.given++
		if holds {
			c.givenHeld++
		}
	}
}

func (c coverageCount) String() string {
	return fmt.Sprintf("%5.1f %5.1f %5.1f", coveragePercent(c.held, c.all), coveragePercent(c.givenHeld, c.given), coveragePercent(c.given, c.all))
}

func coveragePercent(part, whole int) float64 { return 100 * float64(part) / float64(max(whole, 1)) }

// coverage simulates shutters whose scatter is alike over the speeds; in turn one
// speed scatters factor times as much. The true deviations are drawn from ±0.4
// stop. It returns the counts of the speeds that scatter like the rest, and of
// those that scatter more.
func coverage(shutters, firings int, scatter, factor float64) (alike, more [6]coverageCount) {
	rnd := rand.New(rand.NewPCG(20, uint64(firings)))
	limits := map[int]spreadLimits{}
	for i := range shutters {
		odd := i % 6
		s := coverageShutter{firings: firings}
		for k := range s.scatter {
			s.scatter[k] = scatter
			s.deviation[k] = 0.8*rnd.Float64() - 0.4
		}
		s.scatter[odd] *= factor
		heard, laying := s.heard(rnd)
		j := newJudging(heard, Standard())
		j.limits = limits // the same for all, and slow to work out anew
		j.place(laying)
		j.findSymptoms()
		j.sumUp()
		for k, t := range j.trials {
			if k == odd && factor != 1 {
				more[k].add(t, s.deviation[k])
			} else {
				alike[k].add(t, s.deviation[k])
			}
		}
	}
	return alike, more
}

// Three thousand shutters at each number of firings and scatter, unless told more.
// Where a speed scatters three times as much, its mean is hidden the more often the
// worse it is, and those whose firings happen to agree are the ones still given: of
// them alone U95 holds less often, so the share is taken over all, and over the given
// ones of all shutters together. Run with -v for the table.
func TestU95HoldsTheTrueMeanDeviation(t *testing.T) {
	for _, firings := range []int{3, 5} {
		for _, scatter := range []float64{0.01, 0.03, 0.1} {
			if testing.Short() && (firings != 3 || scatter != 0.03) {
				continue
			}
			t.Run(fmt.Sprintf("%d firings, scatter %.2f", firings, scatter), func(t *testing.T) {
				t.Parallel()
				alike, _ := coverage(*coverageShutters, firings, scatter, 1)
				rest, more := coverage(*coverageShutters, firings, scatter, 3)
				t.Log("held of all, held of means given, means given in %")
				t.Logf("%6s %18s %18s %18s", "", "alike", "rest", "three times")
				for k, m := range coverageMarks() {
					t.Logf("%6s %18s %18s %18s", m.Label, alike[k], rest[k], more[k])
					coverageWithin(t, m.Label+", alike, means given", alike[k].givenHeld, alike[k].given, 93, 98)
					coverageWithin(t, m.Label+", alike, all", alike[k].held, alike[k].all, 93, 98)
					coverageWithin(t, m.Label+", one scatters more, means given", rest[k].givenHeld+more[k].givenHeld, rest[k].given+more[k].given, 93, 100)
					coverageWithin(t, m.Label+", itself scattering more, all", more[k].held, more[k].all, 93-coverageChance(93, more[k].all), 100)
				}
			})
		}
	}
}

// coverageChance is twice the standard deviation of a share of n, in per cent: a
// speed in turn is one of six, and of its 500 shutters a share of 93 % comes out 2 %
// lower now and then.
func coverageChance(share float64, n int) float64 {
	return 2 * math.Sqrt(share*(100-share)/float64(n))
}

// coverageWithin fails the test where a share in per cent lies outside [lo, hi].
func coverageWithin(t *testing.T, what string, part, whole int, lo, hi float64) {
	t.Helper()
	if share := coveragePercent(part, whole); share < lo || share > hi {
		t.Errorf("U95 holds in %.1f %% of %d (%s), want %v to %v", share, whole, what, lo, hi)
	}
}
