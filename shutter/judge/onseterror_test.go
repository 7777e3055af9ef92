package judge

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"earshot/shutter"
)

func TestOnsetErrorOfAMeanInCasesWorkedByHand(t *testing.T) {
	tests := []struct {
		name        string
		errors      []onsetError
		own, common float64
	}{
		{"none of no firing", nil, 0, 0},
		{"one firing has its own", []onsetError{{0, 0.03, 0.04}}, 0.03, 0.04},
		// 0.04/√4 and 0.03 again
		{"of one clip's firings the common part stays", []onsetError{{0, 0.04, 0.03}, {0, 0.04, 0.03}, {0, 0.04, 0.03}, {0, 0.04, 0.03}}, 0.02, 0.03},
		// 0.04/√4 and 0.03/√4
		{"of one firing each in four clips all averages out", []onsetError{{0, 0.04, 0.03}, {1, 0.04, 0.03}, {2, 0.04, 0.03}, {3, 0.04, 0.03}}, 0.02, 0.015},
		// Weights 3/4 and 1/4 of 0.04: √(0.03² + 0.01²)
		{"the clip with most of the firings weighs most", []onsetError{{5, 0, 0.04}, {2, 0, 0.04}, {5, 0, 0.04}, {5, 0, 0.04}}, 0, 0.0316228},
		// Alike in s but not in stops: (0.01 + 0.03)/2
		{"one error that shows unequally adds as it is", []onsetError{{0, 0, 0.01}, {0, 0, 0.03}}, 0, 0.02},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := ofMean(tt.errors)
			if math.Abs(got.own-tt.own) > 1e-7 || math.Abs(got.common-tt.common) > 1e-7 {
				t.Errorf("ofMean = %+v, want own %g, common %g", got, tt.own, tt.common)
			}
		})
	}
}

// 0.05 ms, of which 0.03 ms are common, leaves 0.04 ms of its own; a firing of 1/ln 2
// s = 1.4427 s turns seconds into as many stops.
func TestOnsetErrorOfAFiringIsInStops(t *testing.T) {
	f := shutter.Firing{Clip: 3, Open: 1, Close: 1 + 1/math.Ln2, Closed: true, U: 5e-5, Common: 3e-5}
	got := onsetErrorOf(f)
	if got.clip != 3 || math.Abs(got.own-4e-5) > 1e-12 || math.Abs(got.common-3e-5) > 1e-12 {
		t.Errorf("onsetErrorOf = %+v, want clip 3, own 4e-05, common 3e-05", got)
	}
}

// drawnOnsetErrors draws the errors of 1 to 12 firings in up to four clips, those
// that a clip shares alike in all its firings.
func drawnOnsetErrors(t *rapid.T) []onsetError {
	stops := rapid.Float64Range(0, 0.2)
	common := rapid.SliceOfN(stops, 4, 4).Draw(t, "common")
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) onsetError {
		clip := rapid.IntRange(0, 3).Draw(t, "clip")
		return onsetError{clip: clip, own: stops.Draw(t, "own"), common: common[clip]}
	}), 1, 12).Draw(t, "errors")
}

func TestOnsetErrorOfAMeanLiesBetweenItsCommonPartAndThePlainSum(t *testing.T) {
	const tiny = 1e-12
	rapid.Check(t, func(t *rapid.T) {
		errors := drawnOnsetErrors(t)
		var sum, common float64
		clips := map[int]bool{}
		for _, e := range errors {
			sum += math.Hypot(e.own, e.common) / float64(len(errors))
			common += e.common / float64(len(errors))
			clips[e.clip] = true
		}
		got := ofMean(errors).after(1)
		if got > sum+tiny {
			t.Errorf("%g, more than the plain mean of all, %g", got, sum)
		}
		// Independent ones of k clips cancel to 1/√k of their sum at most.
		if least := common / math.Sqrt(float64(len(clips))); got < least-tiny {
			t.Errorf("%g, less than what is common to %d clips, %g", got, len(clips), least)
		}
	})
}

func TestMoreFiringsNeverMakeTheCommonPartOfAMeanSmaller(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := ofMean(drawnOnsetErrors(t))
		times := rapid.Float64Range(1, 1000).Draw(t, "times")
		if after := e.after(times); after > e.after(1) || after < e.common {
			t.Errorf("%+v: %g of %g times as many firings, %g of these", e, after, times, e.after(1))
		}
	})
}

// Firings go on as those so far: what is common stays, and the rest falls by √2.
func TestMoreFiringsAreForeseenAsTheyComeOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		errors := drawnOnsetErrors(t)
		twice := append(append([]onsetError{}, errors...), errors...)
		if got, want := ofMean(errors).after(2), ofMean(twice).after(1); math.Abs(got-want) > 1e-12 {
			t.Errorf("foreseen %g, came out %g", got, want)
		}
	})
}

// An error that all firings of a clip share puts their mean off and not the firings
// off each other.
func TestASharedErrorMovesTheMeanAndNotTheSpread(t *testing.T) {
	judged := func(u, common, late float64) Speed {
		firings, laying := judgeFired(t, judgeSpeed{label: "1/15", x: []float64{0.02, -0.03, 0.01, 0.05}, u: u, common: common})
		for i := range firings {
			firings[i].Close += late
		}
		return Judge(firings, laying, Standard()).Speeds[0]
	}
	const ms = 1e-3
	plain, shared, late := judged(ms, 0, 0).Summary, judged(ms, ms, 0).Summary, judged(ms, ms, ms).Summary
	if shared.Spread != plain.Spread || shared.SD != plain.SD || shared.Budget.Repeatability != plain.Budget.Repeatability {
		t.Errorf("the spread hears of uncertainty: %+v, without %+v", shared, plain)
	}
	// Four firings: what is not shared is half as much of a mean.
	if ratio := shared.Budget.Onset / plain.Budget.Onset; math.Abs(ratio-2) > 0.01 {
		t.Errorf("the onset term is %g times as large where the error is shared, want 2", ratio)
	}
	// 1 ms of 62.5 is log2(63.5/62.5) = 0.0229 stop of the mean, and 1.6 % of the spread of 0.08.
	if moved := late.Deviation - shared.Deviation; math.Abs(moved-0.0229) > 0.001 {
		t.Errorf("the mean moves by %g stop, want 0.0229", moved)
	}
	if moved := late.Spread - shared.Spread; math.Abs(moved) > 0.002 {
		t.Errorf("the spread moves by %g stop of %g", moved, shared.Spread)
	}
	if covered := late.Deviation - late.Budget.Onset; covered > shared.Deviation {
		t.Errorf("the onset term %g leaves out an error of one standard uncertainty", late.Budget.Onset)
	}
}
