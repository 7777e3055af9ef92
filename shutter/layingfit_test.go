package shutter

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

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
			firings := layingOf(c.durations...)
			l := Lay(firings, layingSteps(t, c.told))
			if len(l.Misfits) != 1 || len(l.Doubts) != len(firings) || len(l.Runs) != 0 {
				t.Fatalf("laid %q with misfits %v", layingText(l), l.Misfits)
			}
			check := Judge(firings, l, Standard())
			if check.Verdict != NotJudged || !strings.Contains(check.Next, c.next) || !strings.Contains(check.Why[0], "told "+c.told) {
				t.Errorf("%v because %q, next %q; want %q", check.Verdict, check.Why, check.Next, c.next)
			}
			if got := check.Firings[0].Reason; got != misfitReason {
				t.Errorf("a firing is not counted because %q", got)
			}
		})
	}
}

// What hung may be a firing of another lens, or none at all, as the durations may. At a
// speed that is only in doubt it is the shutter's fault all the same.
func TestAFiringThatHangsIsNotJudgedWhereTheSettingsToldDoNotFit(t *testing.T) {
	firings := layingOf(1, 1.01, 1, 1)
	firings[2].Closed, firings[2].Close = false, 0
	l := Lay(firings, layingSteps(t, "1/8x4"))
	if len(l.Misfits) != 1 {
		t.Fatalf("laid %q, and 1 s does not fit 1/8", layingText(l))
	}
	check := Judge(firings, l, Standard())
	if check.Verdict != NotJudged || len(check.Symptoms) > 0 || len(check.Firings[2].Symptoms) > 0 {
		t.Errorf("%v for %+v, want nothing judged", check.Verdict, check.Symptoms)
	}
	if len(check.Why) != 2 || !strings.Contains(check.Why[1], "firing 3 opened and stayed open by the sound") || !strings.Contains(check.Next, "check the speeds told") {
		t.Errorf("because %q, next %q; want it to say what hung, and to check the speeds", check.Why, check.Next)
	}
	doubted := Judge(firings, Laying{Doubts: doubtAll(firings, "no speed was told")}, Standard())
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
			firings := layingOf(c.durations...)
			l := Lay(firings, layingSteps(t, c.told))
			check := Judge(firings, l, Standard())
			found := c.want == ""
			for _, s := range check.Speeds {
				found = found || slices.ContainsFunc(s.Symptoms, func(s Symptom) bool { return s.Name == c.want })
			}
			if len(l.Misfits) > 0 || !found {
				t.Errorf("laid %q, misfits %v, verdict %v: %q", layingText(l), l.Misfits, check.Verdict, check.Why)
			}
		})
	}
}

// telling is what is told of a session, and how much of it was recorded.
type telling func(rng *rand.Rand, s simSession) (simSession, []Step)

// onlyAt returns the session with the firings at the steps alone.
func (s simSession) onlyAt(steps []Step) (part simSession) {
	for i, f := range s.firings {
		if slices.ContainsFunc(steps, func(st Step) bool { return st.Mark.Label == s.truth[i] }) {
			part.hear(f, s.truth[i], s.faulty[i])
		}
	}
	return part
}

func tellMarksOff(by float64) telling {
	return func(_ *rand.Rand, s simSession) (simSession, []Step) {
		steps := slices.Clone(s.steps)
		for i := range steps {
			m := &steps[i].Mark
			m.Nominal *= by
			m.Label = fmt.Sprintf("%gs", m.Nominal)
		}
		return s, steps
	}
}

func tellFirst(settings int) telling {
	return func(_ *rand.Rand, s simSession) (simSession, []Step) {
		if settings < 0 {
			settings += len(s.steps)
		}
		return s, s.steps[:settings]
	}
}

func recordFrom(first, missingAtEnd int) telling {
	return func(_ *rand.Rand, s simSession) (simSession, []Step) {
		return s.onlyAt(s.steps[first : len(s.steps)-missingAtEnd]), s.steps
	}
}

func tellOne(rng *rand.Rand, s simSession) (simSession, []Step) {
	at := rng.IntN(len(s.steps))
	steps := s.steps[at : at+1]
	return s.onlyAt(steps), steps
}

func tellAll(_ *rand.Rand, s simSession) (simSession, []Step) { return s, s.steps }

// What is told rightly is hardly ever doubted, and what is told wrongly mostly is. One
// mark off is not asked for: such a shutter is nothing rare.
func TestSimulatedTellingsAreDoubtedWhereTheyAreWrong(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name                string
		tell                telling
		maxDoubt, maxAstray float64 // shares of the firings
	}{
		{"told rightly", tellAll, 0.02, 0.005},
		{"one setting told, rightly", tellOne, 0.01, 0.005},
		{"two marks too slow", tellMarksOff(4), 1, 0.2},
		{"two marks too fast", tellMarksOff(1.0 / 4), 1, 0.2},
		{"three marks too slow", tellMarksOff(8), 1, 0.05},
		{"three marks too fast", tellMarksOff(1.0 / 8), 1, 0.05},
		{"the first setting told alone", tellFirst(1), 1, 0.02},
		{"the first two told", tellFirst(2), 1, 0.01},
		{"the last not told", tellFirst(-1), 0.5, 0.05},
		{"the recording lacks the last setting", recordFrom(0, 1), 0.4, 0.005},
		{"the recording lacks the last two", recordFrom(0, 2), 0.1, 0.005},
		{"the recording lacks the first two", recordFrom(2, 0), 0.7, 0.01},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := rateLaying(*layingSessions/2, 7, c.tell)
			t.Logf("%d firings: right %.2f %%, in doubt %.2f %%, wrong %.2f %%", r.firings, 100*r.share(r.right), 100*r.share(r.doubt), 100*r.share(r.wrong))
			if r.share(r.wrong) > c.maxAstray || r.share(r.doubt) > c.maxDoubt {
				t.Errorf("wrong %.2f %%, in doubt %.2f %%; at most %.1f %% and %.0f %% may be", 100*r.share(r.wrong), 100*r.share(r.doubt), 100*c.maxAstray, 100*c.maxDoubt)
			}
		})
	}
}
