package judge

import (
	"math"
	"slices"
	"testing"
)

// judgeDial judges 1 to 1/30, three firings at each about the deviations; the last two
// have no buzz.
func judgeDial(t *testing.T, off ...float64) Check {
	t.Helper()
	var speeds []judgeSpeed
	for i, label := range []string{"1", "1/2", "1/4", "1/8", "1/15", "1/30"} {
		speeds = append(speeds, judgeSpeed{label: label, silent: i > 3, x: []float64{off[i], off[i] + 0.01, off[i] - 0.01}})
	}
	firings, laying := judgeFired(t, speeds...)
	return Judge(firings, laying, Standard())
}

func TestSymptomsOfTheDial(t *testing.T) {
	cases := []struct {
		name   string
		off    []float64
		slow   bool
		uneven []string
		worst  Verdict
	}{
		{"all on their marks", []float64{0, 0.05, -0.05, 0.1, 0, 0.05}, false, nil, Good},
		{"all slow alike", []float64{0.45, 0.45, 0.4, 0.42, 0.4, 0.45}, false, nil, Steady},
		{"the slow ones slow, the fast ones not", []float64{0.6, 0.65, 0.7, 0.6, 0, 0.05}, true, nil, ServiceAdvised},
		{"the slow ones only a little slow", []float64{0.25, 0.25, 0.3, 0.25, 0, 0}, false, nil, Good},
		{"the slow ones fast", []float64{-0.42, -0.4, -0.42, -0.42, 0, 0}, false, nil, Steady},
		{"one slow among them that are not", []float64{0, 0, 0.45, 0, 0, 0}, false, []string{"1/4"}, Steady},
		{"one fast", []float64{0, -0.42, 0, 0, 0, 0}, false, []string{"1/2"}, Steady},
		{"the slowest fast", []float64{-0.44, 0.02, 0, 0, 0.03, 0}, false, []string{"1"}, Steady},
		{"the fastest slow", []float64{0, 0.02, 0, 0, 0.03, 0.48}, false, []string{"1/30"}, Steady},
		{"each a little faster than the one before, a line", []float64{0.45, 0.3, 0.15, 0, -0.15, -0.3}, false, nil, Steady},
		{"the slow ones slow, and one more whose buzz was not heard", []float64{0.7, 0.72, 0.7, 0.68, 0.7, 0}, true, nil, ServiceAdvised},
		{"a slow escapement, and a step off besides", []float64{0.7, 0.7, 1.2, 0.7, 0, 0}, true, []string{"1/4"}, ServiceAdvised},
	}
	for _, c := range cases {
		got := judgeDial(t, c.off...)
		slow := len(got.Symptoms) == 1 && got.Symptoms[0].Name == SlowEscapement
		var uneven []string
		for _, s := range got.Speeds {
			if slices.Equal(symptomNames(s), []SymptomName{UnevenSteps}) {
				uneven = append(uneven, s.Mark.Label)
			}
		}
		if slow != c.slow || !slices.Equal(uneven, c.uneven) || got.Verdict != c.worst {
			t.Errorf("%s: slow escapement %v, uneven %v, %v (%v); want %v, %v, %v", c.name, slow, uneven, got.Verdict, got.Why, c.slow, c.uneven, c.worst)
		}
	}
}

func TestSlowSpeedsThatAreNotAlikeAreNoSlowEscapement(t *testing.T) {
	if got := judgeDial(t, 0.2, 1.6, 0.45, 0.9, 0, 0).Symptoms; len(got) > 0 {
		t.Errorf("%+v", got)
	}
}

// The residual is that from the line of the others, in stops and in the time it makes.
func TestResidualsAreFromTheLineOfTheOthers(t *testing.T) {
	got := judgeDial(t, 0.1, 0.1, 0.6, 0.1, 0.1, 0.1)
	for _, s := range got.Speeds {
		want := 0.0
		if s.Mark.Label == "1/4" {
			want = 0.5
		}
		if r := s.Residual; !r.Known || math.Abs(r.Stops-want) > 1e-9 {
			t.Errorf("%s: residual %+v, want %g stop", s.Mark.Label, r, want)
		}
	}
	// at 0.1 stop 1/4 lasts 267.9 ms, at 0.6 stop 378.9 ms
	if r := got.Speeds[2].Residual; math.Abs(r.Time-0.1110) > 1e-4 {
		t.Errorf("1/4 is %.4f s longer than by the line, want 0.1110", r.Time)
	}
	if !got.Line.Known || got.Line.Escapement != 0 || math.Abs(got.Line.Tilt) > 1e-9 {
		t.Errorf("line %+v, want a level one", got.Line)
	}
	if l := judgeDial(t, 0.5, 0.4, 0.3, 0.2, 0.1, 0).Line; math.Abs(l.Tilt-0.1) > 1e-9 {
		t.Errorf("tilt %g, want 0.1: each speed a tenth of a stop slower than the next faster", l.Tilt)
	}
}

// Three speeds have no line but each other.
func TestFewSpeedsAreNeitherUnevenNorOnALine(t *testing.T) {
	on := []float64{0, 0.01, -0.01}
	firings, laying := judgeFired(t, judgeSpeed{label: "1", x: on}, judgeSpeed{label: "1/2", x: []float64{0.44, 0.45, 0.43}}, judgeSpeed{label: "1/4", x: on})
	got := Judge(firings, laying, Standard())
	for _, s := range got.Speeds {
		if s.Residual.Known || len(s.Symptoms) > 0 {
			t.Errorf("%s: residual %+v, symptoms %v; want none", s.Mark.Label, s.Residual, symptomNames(s))
		}
	}
	if got.Line.Known {
		t.Errorf("line %+v through three speeds", got.Line)
	}
}

// Marks that are assumed put a shutter's deviation into its marks, so they tell
// nothing of it.
func TestAssumedSpeedsHaveNoLine(t *testing.T) {
	var speeds []judgeSpeed
	for i, label := range []string{"1", "1/2", "1/4", "1/8", "1/15", "1/30"} {
		x := 0.45
		if i > 3 {
			x = 0
		}
		speeds = append(speeds, judgeSpeed{label: label, silent: i > 3, assumed: true, x: []float64{x, x, x}})
	}
	firings, laying := judgeFired(t, speeds...)
	if got := Judge(firings, laying, Standard()); len(got.Symptoms) > 0 || got.Line.Known {
		t.Errorf("symptoms %+v, line %+v", got.Symptoms, got.Line)
	}
}
