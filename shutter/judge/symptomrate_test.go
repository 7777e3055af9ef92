package judge

import (
	"math"
	"math/rand/v2"
	"testing"

	"earshot/shutter"
	"earshot/shutter/assign"
)

// rateFound simulates shutters at six speeds and returns the share of them in per
// cent that have the named symptom, at any speed. fault bends the deviations of
// each speed's firings in place.
func rateFound(name SymptomName, firings int, scatter float64, fault func(rnd *rand.Rand, speed int, x []float64)) float64 {
	const shutters = 3000
	rnd := rand.New(rand.NewPCG(21, uint64(firings)))
	limits := map[int]spreadLimits{}
	found := 0
	for range shutters {
		var heard []shutter.Firing
		var laying assign.Laying
		for k, m := range coverageMarks() {
			x := make([]float64, firings)
			for i := range x {
				x[i] = scatter * rnd.NormFloat64()
			}
			fault(rnd, k, x)
			run := assign.Run{Mark: m}
			for _, v := range x {
				run.Firings = append(run.Firings, len(heard))
				heard = append(heard, shutter.Firing{Close: m.Nominal * math.Exp2(v), Closed: true, Buzz: shutter.Buzz{Heard: k < 4}})
			}
			laying.Runs = append(laying.Runs, run)
		}
		j := newJudging(heard, Standard())
		j.limits = limits
		j.place(laying)
		j.findSymptoms()
		for _, t := range j.trials {
			if t.firingsWith(name) != nil {
				found++
				break
			}
		}
	}
	return 100 * float64(found) / shutters
}

// rateHealthy leaves the firings as they scatter.
func rateHealthy(*rand.Rand, int, []float64) {}

// rateFreeing lets the first slow speeds, or only 1/8, fall by 0.4 stop in all.
func rateFreeing(only bool) func(*rand.Rand, int, []float64) {
	return func(_ *rand.Rand, speed int, x []float64) {
		if speed < 4 && (!only || speed == 3) {
			for i := range x {
				x[i] -= 0.4 * float64(i) / float64(len(x)-1)
			}
		}
	}
}

// rateErratic scatters 1/4 by half a stop.
func rateErratic(rnd *rand.Rand, speed int, x []float64) {
	if speed == 2 {
		for i := range x {
			x[i] = 0.5 * rnd.NormFloat64()
		}
	}
}

// rateEarly closes the second firing at 1/2 1.3 to 3 stops early.
func rateEarly(rnd *rand.Rand, speed int, x []float64) {
	if speed == 1 {
		x[1] -= 1.3 + 1.7*rnd.Float64()
	}
}

// A shutter in order scatters by no more than 0.04 stop: then 99 of 100 spreads of
// three lie within the good limit of 1/6.
func TestSymptomsAreFoundWhereTheyAreAndNotElsewhere(t *testing.T) {
	t.Parallel()
	for _, n := range []int{3, 5} {
		for _, name := range []SymptomName{ClosesEarly, NeedsExercise, Erratic} {
			share := rateFound(name, n, 0.04, rateHealthy)
			t.Logf("%d firings: %s in %.1f %% of healthy shutters", n, name, share)
			if share > 2 {
				t.Errorf("%d firings: %s in %.1f %% of healthy shutters, want at most 2", n, name, share)
			}
		}
	}
	cases := []struct {
		name    string
		symptom SymptomName
		firings int
		fault   func(*rand.Rand, int, []float64)
		least   float64
	}{
		{"four speeds freeing up over three firings", NeedsExercise, 3, rateFreeing(false), 95},
		{"four speeds freeing up over five firings", NeedsExercise, 5, rateFreeing(false), 95},
		{"one speed freeing up over ten firings", NeedsExercise, 10, rateFreeing(true), 95},
		{"one firing closing early", ClosesEarly, 3, rateEarly, 99},
		{"one speed erratic over five firings", Erratic, 5, rateErratic, 95},
	}
	for _, c := range cases {
		share := rateFound(c.symptom, c.firings, 0.04, c.fault)
		t.Logf("%s: found in %.1f %%", c.name, share)
		if share < c.least {
			t.Errorf("%s: found in %.1f %%, want at least %v", c.name, share, c.least)
		}
	}
}
