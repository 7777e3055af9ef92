package judge

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"earshot/dsp/outside"
	"earshot/shutter"
)

// The hours of sleep that two drugs gained for ten patients (Student, Biometrika 6,
// 1908).
func TestWelchsTestOfStudentsSleepData(t *testing.T) {
	r := outside.Source{
		Name:    "Student's sleep data (Biometrika 6, 1908) in Welch's test, as the documentation of R's t.test prints it",
		Figures: "t, degrees of freedom and p read there; the interval from memory",
	}
	a := []float64{0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0}
	b := []float64{1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4}
	w := welchOf(scatterOf(a), len(a), scatterOf(b), len(b))
	difference := shutter.Mean(a) - shutter.Mean(b)
	outside.Printed(t, r, "t", difference/w.se, "-1.8608")
	outside.Printed(t, r, "degrees of freedom", w.df, "17.776")
	outside.Printed(t, r, "p", w.probability(difference), "0.07939")
	outside.Printed(t, r, "lower end of the interval of 95 %", difference-w.halfWidth(), "-3.3654832")
	outside.Printed(t, r, "upper end of the interval of 95 %", difference+w.halfWidth(), "0.2054832")
}

func TestHolmsProcedureOnAPublishedExample(t *testing.T) {
	example := outside.Source{
		Name:    "S. Holm, Scand. J. Statist. 6, 1979, on the example that introductions to his procedure give",
		Figures: "p = 0.01, 0.04, 0.03 and 0.005, of which the first and the fourth are rejected at 5 %; from memory",
	}
	var rejected []bool
	for _, p := range holm([]float64{0.01, 0.04, 0.03, 0.005}) {
		rejected = append(rejected, p <= 0.05)
	}
	outside.Exact(t, example, "hypotheses rejected or not", rejected, []bool{true, false, false, true})
}

func TestCompareCallsAChangeRealOrNot(t *testing.T) {
	steady := func(deviation float64) Sitting {
		return Sitting{Deviation: deviation, N: 3, Scatter: 0.01, DF: 12, Budget: Budget{Edge: 0.05, Onset: 0.002, Clock: 0.0001}}
	}
	wild := steady(0.3)
	wild.Scatter, wild.DF = 0.3, 2
	unknown := steady(0.5)
	unknown.DF = 0
	for _, c := range []struct {
		name          string
		before, after Sitting
		same, real    bool
	}{
		{"0.8 stop faster after service is real", steady(0.8), steady(0), false, true},
		{"0.1 stop is too small to matter, however sure", steady(0.1), steady(0), true, false},
		{"0.3 stop within a wide scatter is not shown", steady(0), wild, true, false},
		{"nothing is shown where scatter is not known", steady(0), unknown, true, false},
		{"0.3 stop slower is as real as faster", steady(0), steady(0.3), false, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := Compare([]Sitting{c.before}, []Sitting{c.after}, c.same)[0]; got.Real != c.real {
				t.Errorf("Compare = %+v, want real %v", got, c.real)
			}
		})
	}
}

// At 1/30 the edge alone leaves a fifth of a stop open between two set-ups; the same
// set-up takes that away.
func TestTheEdgeTermDropsOutWhereTheSetUpWasTheSame(t *testing.T) {
	before := Sitting{Deviation: 0, N: 5, Scatter: 0.01, DF: 16, Budget: Budget{Edge: 0.15}}
	after := before
	after.Deviation = 0.2
	apart := Compare([]Sitting{before}, []Sitting{after}, false)[0]
	same := Compare([]Sitting{before}, []Sitting{after}, true)[0]
	if apart.Real || !same.Real {
		t.Errorf("0.2 stop is real %v between two set-ups and %v in one, want false and true", apart.Real, same.Real)
	}
}

// Six speeds of a shutter that did not change, three firings each, seldom show a
// change anywhere: at most 5 % of such comparisons, whatever the limit of 1/6 stop.
func TestAnUnchangedShutterSeldomShowsAChangeByScatterAlone(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 11))
	const runs = 4000
	found := 0
	for range runs {
		var p []float64
		for range 6 {
			draw := func() []float64 { return []float64{rnd.NormFloat64(), rnd.NormFloat64(), rnd.NormFloat64()} }
			a, b := draw(), draw()
			p = append(p, welchOf(scatterOf(a), 3, scatterOf(b), 3).probability(shutter.Mean(a)-shutter.Mean(b)))
		}
		for _, corrected := range holm(p) {
			if corrected <= changeLevel {
				found++
				break
			}
		}
	}
	if share := float64(found) / runs; share > 0.05 {
		t.Errorf("%.1f %% of unchanged shutters show a change, want at most 5 %%", 100*share)
	}
}

func TestComparingBackwardsTurnsTheSignAndNothingElse(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		draw := func(name string) []Sitting {
			return rapid.SliceOfN(rapid.Custom(func(r *rapid.T) Sitting {
				return Sitting{Deviation: rapid.Float64Range(-2, 2).Draw(r, "x"), N: rapid.IntRange(1, 6).Draw(r, "n"),
					Scatter: rapid.Float64Range(0, 0.5).Draw(r, "s"), DF: rapid.IntRange(0, 12).Draw(r, "df"), Budget: Budget{Edge: 0.1}}
			}), 3, 3).Draw(r, name)
		}
		a, b := draw("a"), draw("b")
		there, back := Compare(a, b, false), Compare(b, a, false)
		for i := range there {
			x, y := there[i], back[i]
			if x.Stops != -y.Stops || math.Abs(x.U95-y.U95) > 1e-9 || math.Abs(x.P-y.P) > 1e-9 || x.Real != y.Real {
				r.Fatalf("there %+v, back %+v", x, y)
			}
		}
	})
}
