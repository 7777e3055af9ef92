package judge

import (
	"slices"
	"strings"
	"testing"

	"earshot/shutter"
	"earshot/shutter/assign"
)

// firedFor gives firings of the durations in s, one every 4 s, in one clip; one of 0
// never closed.
func firedFor(durations ...float64) []shutter.Firing {
	firings := make([]shutter.Firing, len(durations))
	at := 2.0
	for i, d := range durations {
		if firings[i] = (shutter.Firing{Open: at, U: 2e-5}); d > 0 {
			firings[i].Close, firings[i].Closed = at+d, true
		}
		at += 4 + d
	}
	return firings
}

func stepsOf(t testing.TB, list string) []shutter.Step {
	steps, err := shutter.ParseSteps(list)
	if err != nil {
		t.Fatal(err)
	}
	return steps
}

func TestSettingsThatDoNotFitAreDoubtedAndNotJudged(t *testing.T) {
	full := []float64{1.05, 1.04, 1.06, 0.52, 0.53, 0.52, 0.26, 0.26, 0.26, 0.13, 0.13, 0.13, 0.065, 0.065, 0.066, 0.032, 0.032, 0.033, 0.032, 0.032}
	for _, c := range []struct {
		name, told string
		durations  []float64
		next       string // a part of it
	}{
		{"one mark told for a whole dial", "1/7x3", full, "check the speeds told"},
		{"three firings told and twenty heard at six settings", "1x3", full, "check the speeds told"},
		{"two settings told of six", "1 1/2", full, "check the speeds told"},
		{"firings alike and two stops slow", "1/4", []float64{1, 1.01, 1}, "if they are right, the shutter is 2.0 stops slow (more light) throughout"},
		{"firings alike and three stops fast", "1x3", []float64{0.125, 0.126, 0.125}, "if they are right, the shutter is 3.0 stops fast (less light) throughout"},
		{"a list begun two marks late", "1/4x3 1/8x3 1/15x3 1/30x3 1/60x3 1/125x5", full, "if they are right, the shutter is 2."},
	} {
		t.Run(c.name, func(t *testing.T) {
			firings := firedFor(c.durations...)
			l := assign.Lay(firings, stepsOf(t, c.told))
			if len(l.Misfits) != 1 || len(l.Doubts) != len(firings) || len(l.Runs) != 0 {
				t.Fatalf("laid %v with misfits %v", l.Runs, l.Misfits)
			}
			check := Judge(firings, l, Standard())
			if check.Verdict != NotJudged || !strings.Contains(check.Next, c.next) || !strings.Contains(check.Why[0], "told "+c.told) {
				t.Errorf("%v because %q, next %q; want %q", check.Verdict, check.Why, check.Next, c.next)
			}
			if got := check.Firings[0].Reason; !strings.Contains(got, "the speeds told do not fit") {
				t.Errorf("a firing is not counted because %q", got)
			}
		})
	}
}

// What hung may be a firing of another lens, or none at all, as the durations may. At a
// speed that is only in doubt it is the shutter's fault all the same.
func TestAFiringThatHangsIsNotJudgedWhereTheSettingsToldDoNotFit(t *testing.T) {
	firings := firedFor(1, 1.01, 1, 1)
	firings[2].Closed, firings[2].Close = false, 0
	l := assign.Lay(firings, stepsOf(t, "1/8x4"))
	if len(l.Misfits) != 1 {
		t.Fatalf("laid %v, and 1 s does not fit 1/8", l.Runs)
	}
	check := Judge(firings, l, Standard())
	if check.Verdict != NotJudged || len(check.Symptoms) > 0 || len(check.Firings[2].Symptoms) > 0 {
		t.Errorf("%v for %+v, want nothing judged", check.Verdict, check.Symptoms)
	}
	if len(check.Why) != 2 || !strings.Contains(check.Why[1], "firing 3 opened and stayed open by the sound") || !strings.Contains(check.Next, "check the speeds told") {
		t.Errorf("because %q, next %q; want it to say what hung, and to check the speeds", check.Why, check.Next)
	}
	doubted := Judge(firings, assign.Lay(firings, nil), Standard())
	if doubted.Verdict != ServiceAdvised || len(doubted.Symptoms) != 1 || doubted.Symptoms[0].Name != HangsOpen {
		t.Errorf("at a speed in doubt: %v for %+v, want service advised for what hung", doubted.Verdict, doubted.Symptoms)
	}
}

func TestAFaultIsNoMisfit(t *testing.T) {
	for _, c := range []struct {
		name, told string
		durations  []float64
		want       SymptomName // empty for none
	}{
		{"a stop slow throughout", "1x3 1/2x3 1/4x3", []float64{2, 2, 2, 1, 1, 1, 0.5, 0.5, 0.5}, ""},
		{"a little over a stop early at the only speed", "1/4x3", []float64{0.115, 0.117, 0.116}, ClosesEarly},
		{"most firings at the only speed far too early", "1/4x3", []float64{0.25, 0.03, 0.031}, ClosesEarly},
		{"all firings at one speed far too early and the others on their marks", "1x3 1/2x3 1/4x3", []float64{0.1, 0.1, 0.1, 0.5, 0.5, 0.5, 0.25, 0.25, 0.25}, ClosesEarly},
		{"one firing alone, far too early", "1x1", []float64{0.1}, ClosesEarly},
		{"no two firings alike", "1/4x5", []float64{0.25, 0.35, 0.22, 0.45, 0.28}, Erratic},
		{"one firing hangs", "1/4x4", []float64{0.25, 0, 0.26, 0.25}, HangsOpen},
		{"more firings than told at the one speed", "1/4x3", []float64{0.25, 0.25, 0.25, 0.26, 0.25, 0.25, 0.24, 0.25}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			firings := firedFor(c.durations...)
			l := assign.Lay(firings, stepsOf(t, c.told))
			check := Judge(firings, l, Standard())
			found := c.want == ""
			for _, s := range check.Speeds {
				found = found || slices.ContainsFunc(s.Symptoms, func(s Symptom) bool { return s.Name == c.want })
			}
			if len(l.Misfits) > 0 || !found {
				t.Errorf("laid %v, misfits %v, verdict %v: %q", l.Runs, l.Misfits, check.Verdict, check.Why)
			}
		})
	}
}
