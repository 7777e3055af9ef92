package judge

import (
	"encoding/json"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"earshot/shutter"
	"earshot/shutter/assign"
)

// propertyLabels are a whole dial, with speeds too fast for sound among them.
var propertyLabels = []string{"1", "1/2", "1/4", "1/8", "1/15", "1/30", "1/60", "1/125", "1/250"}

// propertySpeeds draws a shutter's settings with anything from perfect to faulty
// firings.
func propertySpeeds(t *rapid.T) []judgeSpeed {
	n := rapid.IntRange(1, len(propertyLabels)).Draw(t, "speeds")
	var speeds []judgeSpeed
	for i, label := range propertyLabels[:n] {
		off := rapid.Float64Range(-0.7, 0.7).Draw(t, "off")
		scatter := rapid.SampledFrom([]float64{0, 0.005, 0.05, 0.1, 0.2}).Draw(t, "scatter")
		around := rapid.Float64Range(off-scatter, off+scatter)
		speeds = append(speeds, judgeSpeed{
			label: label, silent: i > 3, u: 20e-6, common: 12e-6,
			assumed: rapid.IntRange(0, 9).Draw(t, "assumed") == 0,
			x:       rapid.SliceOfN(around, 1, 6).Draw(t, "x"),
		})
	}
	return speeds
}

func propertyJudged(t *rapid.T, tb testing.TB, speeds []judgeSpeed) Check {
	return judgedBy(tb, speeds, Standard())
}

// propertyBetter tells whether verdict b says more for a shutter than a; a speed that
// is not judged says nothing either way.
func propertyBetter(b, a Verdict) bool { return a != NotJudged && b != NotJudged && b > a }

// A firing that moves further out, on the side its speed is off to and beyond all
// its fellows, never makes that speed look better, with one exception that is the
// nature of mean ± U95: a speed surely beyond the service limit may become one that
// is perhaps beyond it, since its firings agree less and U95 grows.
func TestNoSpeedIsJudgedBetterForAWorseFiring(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		speeds := propertySpeeds(rt)
		k := rapid.IntRange(0, len(speeds)-1).Draw(rt, "which")
		worse := slices.Clone(speeds)
		worse[k].x = propertyFurtherOut(speeds[k].x, rapid.Float64Range(0, 1.5).Draw(rt, "further"))
		before, after := propertyJudged(rt, t, speeds).Speeds[k], propertyJudged(rt, t, worse).Speeds[k]
		if !propertyBetter(after.Verdict, before.Verdict) {
			return
		}
		a, b := before.Summary, after.Summary
		faulty := slices.ContainsFunc(before.Symptoms, func(s Symptom) bool { return s.Name.advisesService() })
		lessSure := before.Verdict == ServiceAdvised && !faulty &&
			math.Abs(b.Deviation) > math.Abs(a.Deviation) && b.U95 > a.U95 && math.Abs(b.Deviation)+b.U95 > Standard().Service
		if !lessSure {
			rt.Fatalf("%s became %v (%s) from %v (%s): %v to %v", before.Mark.Label, after.Verdict, after.Why, before.Verdict, before.Why, speeds[k].x, worse[k].x)
		}
	})
}

// propertyFurtherOut moves the outermost firing on the side of the mean outwards.
func propertyFurtherOut(x []float64, by float64) []float64 {
	out := slices.Clone(x)
	side := math.Copysign(1, shutter.Mean(x))
	far := 0
	for i, v := range x {
		if side*v > side*x[far] {
			far = i
		}
	}
	out[far] += side * by
	return out
}

// A firing that hangs open or closes early never makes the shutter look better, nor
// its speed.
func TestAFaultyFiringNeverMakesBetter(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		speeds := propertySpeeds(rt)
		k := rapid.IntRange(0, len(speeds)-1).Draw(rt, "which")
		faulty := judgeHung
		if rapid.Bool().Draw(rt, "early") {
			faulty = slices.Min(speeds[k].x) - rapid.Float64Range(1, 4).Draw(rt, "earlier")
		}
		worse := slices.Clone(speeds)
		at := rapid.IntRange(0, len(speeds[k].x)).Draw(rt, "at")
		worse[k].x = slices.Insert(slices.Clone(speeds[k].x), at, faulty)
		got := propertyJudged(rt, t, worse)
		if got.Verdict != ServiceAdvised || got.Speeds[k].Verdict != ServiceAdvised || !got.Speeds[k].Summary.MeanHidden {
			rt.Fatalf("with %v: shutter %v, speed %v, mean hidden %v", worse[k].x, got.Verdict, got.Speeds[k].Verdict, got.Speeds[k].Summary.MeanHidden)
		}
	})
}

// A clip for each setting, the clips in any order: the same verdicts and figures.
func TestOrderOfClipsDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		speeds := propertySpeeds(rt)
		again := rapid.IntRange(0, len(speeds)-1).Draw(rt, "again")
		speeds = append(speeds, speeds[again]) // one speed in two clips
		clips := func(order []judgeSpeed) Check {
			firings, laying := judgeFired(t, order...)
			for c, run := range laying.Runs {
				for _, i := range run.Firings {
					firings[i].Clip = c
				}
			}
			return Judge(firings, laying, Standard())
		}
		a, b := clips(speeds), clips(rapid.Permutation(speeds).Draw(rt, "order"))
		if a.Verdict != b.Verdict || a.Partly != b.Partly || len(a.Speeds) != len(b.Speeds) {
			rt.Fatalf("%v of %d speeds became %v of %d", a.Verdict, len(a.Speeds), b.Verdict, len(b.Speeds))
		}
		for k := range a.Speeds {
			p, q := a.Speeds[k], b.Speeds[k]
			if p.Verdict != q.Verdict || math.Abs(p.Summary.Deviation-q.Summary.Deviation) > 1e-9 || math.Abs(p.Summary.U95-q.Summary.U95) > 1e-9 {
				rt.Fatalf("%s: %v %+v became %v %+v", p.Mark.Label, p.Verdict, p.Summary, q.Verdict, q.Summary)
			}
		}
	})
}

// A shutter twice as slow in everything at marks twice as long, heard by a recorder
// whose errors are twice as long too, is off by the same stops.
func TestJudgingIsOfRatiosNotTimes(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		firings, laying := judgeFired(t, propertySpeeds(rt)...)
		a := Judge(firings, laying, Standard())
		for i := range firings {
			f := &firings[i]
			f.Open, f.Close, f.U, f.Common = 2*f.Open, 2*f.Close, 2*f.U, 2*f.Common
		}
		for i := range laying.Runs {
			laying.Runs[i].Mark.Nominal *= 2
		}
		policy := Standard()
		policy.EdgeMS *= 2
		b := Judge(firings, laying, policy)
		for k := range a.Speeds {
			p, q := a.Speeds[k], b.Speeds[k]
			if p.Verdict != q.Verdict || math.Abs(p.Summary.Deviation-q.Summary.Deviation) > 1e-12 || math.Abs(p.Summary.U95-q.Summary.U95) > 1e-12 {
				rt.Fatalf("%s: %v %+v became %v %+v", p.Mark.Label, p.Verdict, p.Summary, q.Verdict, q.Summary)
			}
		}
	})
}

// Whatever the firings hold, what comes out can be written as JSON, which refuses
// NaN and Inf, and has a reason for every verdict.
func TestNothingUnwritableLeaves(t *testing.T) {
	number := rapid.OneOf(rapid.Float64(), rapid.Float64Range(0, 4),
		rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, 5e-324, math.MaxFloat64}))
	rapid.Check(t, func(rt *rapid.T) {
		firings := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) shutter.Firing {
			return shutter.Firing{
				Open: number.Draw(t, "open"), Close: number.Draw(t, "close"), U: number.Draw(t, "u"), Common: number.Draw(t, "common"),
				Closed: rapid.Bool().Draw(t, "closed"), Buzz: shutter.Buzz{Heard: rapid.Bool().Draw(t, "buzz")},
				Unfit: rapid.SampledFrom([]string{"", "", "samples lost inside"}).Draw(t, "unfit"),
			}
		}), 0, 12).Draw(rt, "firings")
		var laying assign.Laying
		for i := range firings {
			mark := rapid.SampledFrom(shutter.Binary().Marks).Draw(rt, "mark")
			switch rapid.IntRange(0, 5).Draw(rt, "placed") {
			case 0:
				laying.Doubts = append(laying.Doubts, assign.Doubt{Firing: i, Reason: "in doubt"})
			default:
				laying.Runs = append(laying.Runs, assign.Run{Mark: mark, Assumed: rapid.Bool().Draw(rt, "assumed"), Firings: []int{i}})
			}
		}
		got := Judge(firings, laying, Standard())
		for i := range got.Firings {
			f := &got.Firings[i]
			f.Firing = shutter.Firing{} // as it came in
			if f.Judged == (f.Reason != "") {
				rt.Fatalf("firing %d: judged %v, reason %q", i, f.Judged, f.Reason)
			}
		}
		if _, err := json.Marshal(got); err != nil {
			rt.Fatal(err)
		}
		if len(got.Why) == 0 || slices.ContainsFunc(got.Speeds, func(s Speed) bool { return s.Why == "" }) {
			rt.Fatalf("no reason: %+v", got)
		}
	})
}
