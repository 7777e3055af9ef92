package judge

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"earshot/shutter"
)

// worsened are ways in which the firings of a speed get worse: they agree less about the
// same mean, the outermost moves further out, or all move away from the mark together.
var worsened = map[string]func(x []float64, by float64) []float64{
	"wider": func(x []float64, by float64) []float64 {
		m, out := shutter.Mean(x), slices.Clone(x)
		for i := range out {
			out[i] = m + (1+by)*(out[i]-m)
		}
		return out
	},
	"one further out": propertyFurtherOut,
	"all further off": func(x []float64, by float64) []float64 {
		side, out := math.Copysign(by, shutter.Mean(x)), slices.Clone(x)
		for i := range out {
			out[i] += side
		}
		return out
	},
}

// A check's headline is its verdict with whether it is qualified as partly checked. No
// firing that gets worse may make it better in this order: not good, good but partly
// checked, good; nor make steady, unqualified, what was service advised. Nor does a
// speed become good. Where firings agree less, what was surely beyond the service limit
// may be so no longer: the speed is steady or not judged then, and the check partial.
func TestNothingThatGetsWorseLooksBetter(t *testing.T) {
	for name, worsen := range worsened {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(rt *rapid.T) {
				speeds := rapid.OneOf(rapid.Custom(propertySpeeds), rapid.Custom(nearlyGoodSpeeds)).Draw(rt, "fired")
				policy := rapid.SampledFrom([]Policy{Standard(), bigShutters, NegativeFilm()}).Draw(rt, "policy")
				k := rapid.IntRange(0, len(speeds)-1).Draw(rt, "which")
				apart(speeds[k].x)
				worse := slices.Clone(speeds)
				by := rapid.OneOf(rapid.Float64Range(0, 0.3), rapid.Float64Range(0, 3)).Draw(rt, "by")
				worse[k].x = worsen(speeds[k].x, by)
				before, after := judgedBy(t, speeds, policy), judgedBy(t, worse, policy)
				if nowPooled(before, after) {
					return // see there
				}
				p, q := before.Speeds[k], after.Speeds[k]
				if policy.Good > mostU95 && p.Verdict == NotJudged && q.Verdict == Good && q.Summary.U95 < p.Summary.U95 {
					return // a longer time is measured more surely, and is good enough for such a limit
				}
				if q.Verdict == Good && p.Verdict != Good {
					rt.Fatalf("%s became good (%s) from %v (%s): %v to %v", p.Mark.Label, q.Why, p.Verdict, p.Why, speeds[k].x, worse[k].x)
				}
				better := after.Verdict == Good && (before.Verdict != Good || before.Partly && !after.Partly)
				unsaid := after.Verdict == Steady && before.Verdict == ServiceAdvised && !after.Partly
				if better || unsaid {
					rt.Fatalf("the shutter became %v, partly %v (%q) from %v, partly %v (%q): %s %v to %v", after.Verdict, after.Partly, after.Why, before.Verdict, before.Partly, before.Why, speeds[k].label, speeds[k].x, worse[k].x)
				}
			})
		})
	}
}

// nowPooled tells whether a speed whose own scatter was the larger has become one like
// its fellows, as these scatter more: its scatter is the pooled one then, of more degrees
// of freedom and so a smaller t, and its U95 falls at that point, though no firing of its
// own is any different.
func nowPooled(before, after Check) bool {
	for i, s := range after.Speeds {
		if b := before.Speeds[i].Summary; b.DF > 0 && s.Summary.DF > b.DF && b.N == s.Summary.N {
			return true
		}
	}
	return false
}

// apart moves firings that are exactly alike off each other, as no two of a shutter
// are: the order in which longer and shorter ones come stays the same then as they get
// worse, and with it what a trend tells.
func apart(x []float64) {
	for i := range x {
		x[i] += 1e-5 * float64(i)
	}
}

// bigShutters is a strict house that checks big ones.
var bigShutters = Policy{Name: "big", Good: 0.2, Service: 0.4, SpreadGood: 0.1, SpreadService: 0.25, ClockPPM: 100, EdgeMS: 4}

// nearlyGoodSpeeds draws a shutter that is good but for a speed or two, with anything
// from nearly good to far off, scattering or freeing up at those.
func nearlyGoodSpeeds(t *rapid.T) []judgeSpeed {
	var speeds []judgeSpeed
	for i, label := range propertyLabels {
		if rapid.IntRange(0, 9).Draw(t, "left out") == 0 && len(speeds)+len(propertyLabels)-i > 1 {
			continue
		}
		s := judgeSpeed{label: label, silent: i > 3, u: 20e-6, common: 12e-6}
		off, scatter := 0.02, 0.02
		if rapid.IntRange(0, 4).Draw(t, "doubtful") == 0 {
			off = rapid.Float64Range(-1.2, 1.2).Draw(t, "off")
			scatter = rapid.Float64Range(0, 0.15).Draw(t, "scatter")
		}
		s.x = rapid.SliceOfN(rapid.Float64Range(off-scatter, off+scatter), 1, 6).Draw(t, "x")
		if rapid.IntRange(0, 4).Draw(t, "frees up") == 0 {
			slices.SortFunc(s.x, func(a, b float64) int { return cmp.Compare(b, a) })
		}
		speeds = append(speeds, s)
	}
	return speeds
}

func judgedBy(t testing.TB, speeds []judgeSpeed, policy Policy) Check {
	firings, laying := judgeFired(t, speeds...)
	return Judge(firings, laying, policy)
}

// A spread beyond the service limit stays so however much wider it gets, and what is
// erratic has service advised.
func TestAWiderSpreadBeyondTheLimitStaysBeyond(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(2, 8).Draw(rt, "firings")
		_, service := Standard().SpreadLimits(n)
		x := rapid.SliceOfN(rapid.Float64Range(-0.5, 0.5), n, n).Draw(rt, "x")
		x[0], x[1] = -service/2*1.001, service/2*1.001
		wider := worsened["wider"](x, rapid.Float64Range(0, 20).Draw(rt, "by"))
		for _, x := range [][]float64{x, wider} {
			got := propertyJudged(rt, t, []judgeSpeed{{label: "1/8", u: 20e-6, common: 12e-6, x: x}})
			if got.Speeds[0].Verdict != ServiceAdvised || got.Verdict != ServiceAdvised {
				rt.Fatalf("%v: speed %v, shutter %v", x, got.Speeds[0].Verdict, got.Verdict)
			}
		}
	})
}
