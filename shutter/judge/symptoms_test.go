package judge

import (
	"slices"
	"strings"
	"testing"

	"earshot/shutter"
	"earshot/shutter/assign"
)

// symptomNames returns the symptoms of a speed with the deviations of the test,
// beside three healthy speeds.
func symptomNames(s Speed) []SymptomName {
	var names []SymptomName
	for _, y := range s.Symptoms {
		names = append(names, y.Name)
	}
	return names
}

func TestSymptomsOfASpeed(t *testing.T) {
	cases := []struct {
		name    string
		x       []float64
		assumed bool
		want    []SymptomName
		firings []int // of the first symptom
	}{
		{"a healthy speed has none", []float64{0, 0.02, -0.01}, false, nil, nil},
		{"an opening that never closes hangs open", []float64{0, judgeHung, 0.01}, false, []SymptomName{HangsOpen}, []int{1}},
		{"a firing a stop short of its fellows closes early", []float64{0.1, 0.12, -0.9}, false, []SymptomName{ClosesEarly}, []int{2}},
		{"a firing just less than a stop short makes it erratic", []float64{0.1, 0.1, -0.89}, false, []SymptomName{Erratic}, []int{0, 1, 2}},
		{"two of five short close early", []float64{0, -1.2, 0.01, -1.3, 0.02}, false, []SymptomName{ClosesEarly}, []int{1, 3}},
		{"where most are short the mark tells", []float64{-1.2, -1.25, 0}, false, []SymptomName{ClosesEarly}, []int{0, 1}},
		{"an assumed mark does not tell", []float64{-1.2, -1.25, -1.3}, true, nil, nil},
		{"five firings that fall need exercise", []float64{0.5, 0.42, 0.4, 0.38, 0.3}, false, []SymptomName{NeedsExercise}, []int{0, 1, 2, 3, 4}},
		{"five that fall by too little do not", []float64{0.15, 0.12, 0.1, 0.08, 0.01}, false, nil, nil},
		{"five that rise do not", []float64{0.1, 0.18, 0.2, 0.22, 0.3}, false, nil, nil},
		{"three that fall prove nothing", []float64{0.3, 0.2, 0.1}, false, nil, nil},
		{"falling explains a spread beyond the limit", []float64{0.9, 0.6, 0.4, 0.3, 0.2}, false, []SymptomName{NeedsExercise}, nil},
		{"a spread beyond the limit is erratic", []float64{0, 0.4, 0.1}, false, []SymptomName{Erratic}, []int{0, 1, 2}},
		{"a firing that closes early does not make it erratic too", []float64{0, 0.1, -1.2}, false, []SymptomName{ClosesEarly}, []int{2}},
		{"the others can", []float64{0, 0.6, -0.2, -1.5}, false, []SymptomName{ClosesEarly, Erratic}, []int{3}},
		{"hanging and closing early are both told", []float64{judgeHung, 0, -1.2, 0.01}, false, []SymptomName{HangsOpen, ClosesEarly}, []int{0}},
	}
	for _, c := range cases {
		got := judgeOne(t, judgeSpeed{label: "1/8", assumed: c.assumed, x: c.x})
		if names := symptomNames(got); !slices.Equal(names, c.want) {
			t.Errorf("%s: %v, want %v", c.name, names, c.want)
			continue
		}
		if c.firings != nil && !slices.Equal(got.Symptoms[0].Firings, c.firings) {
			t.Errorf("%s: rests on %v, want %v", c.name, got.Symptoms[0].Firings, c.firings)
		}
		if (len(c.want) > 0) != (got.Verdict == ServiceAdvised) {
			t.Errorf("%s: verdict %v", c.name, got.Verdict)
		}
		for _, y := range got.Symptoms {
			if y.Why == "" || !strings.HasSuffix(y.Cause, "(common practice, no source)") {
				t.Errorf("%s: %+v lacks a reason or a cause", c.name, y)
			}
		}
	}
}

// The more firings, the wider two of them may lie apart by chance.
func TestFiringMoreOftenIsNotPunished(t *testing.T) {
	wide := []float64{-0.17, 0.17, 0}
	if got := judgeOne(t, judgeSpeed{label: "1/8", x: wide}); len(got.Symptoms) != 1 {
		t.Errorf("a spread of 0.34 in three firings: %v, want erratic", symptomNames(got))
	}
	more := append(wide, 0.01, -0.01, 0.02, -0.02, 0, 0.01, 0.03)
	if got := judgeOne(t, judgeSpeed{label: "1/8", x: more}); len(got.Symptoms) != 0 {
		t.Errorf("a spread of 0.34 in ten firings: %v, want none", symptomNames(got))
	}
}

// No speed alone reaches p ≤ 0.01 with three firings; four of them together do.
func TestExerciseIsSeenOverSeveralSpeeds(t *testing.T) {
	falls := []float64{0.4, 0.3, 0.2}
	firings, laying := judgeFired(t, judgeSpeed{label: "1", x: falls}, judgeSpeed{label: "1/2", x: falls},
		judgeSpeed{label: "1/4", x: falls}, judgeSpeed{label: "1/8", x: falls}, judgeSpeed{label: "1/15", x: []float64{0, 0.01, 0}})
	for i, s := range Judge(firings, laying, Standard()).Speeds {
		if got := slices.Equal(symptomNames(s), []SymptomName{NeedsExercise}); got != (i < 4) {
			t.Errorf("%s: %v", s.Mark.Label, symptomNames(s))
		}
	}
}

// Which of two clips was recorded first is not known, so a fall from one to the
// other proves nothing.
func TestExerciseIsNotSeenAcrossClips(t *testing.T) {
	firings, laying := judgeFired(t, judgeSpeed{label: "1/8", x: []float64{0.5, 0.42, 0.4, 0.38, 0.3}})
	for i := range firings {
		firings[i].Clip = i
	}
	if got := Judge(firings, laying, Standard()).Speeds[0]; len(got.Symptoms) != 0 {
		t.Errorf("symptoms %v, want none", symptomNames(got))
	}
}

func TestAHangAtAnUnknownSpeedIsTheShutters(t *testing.T) {
	on := []float64{0, 0.01, -0.01}
	firings, laying := judgeFired(t, judgeSpeed{label: "1", x: on}, judgeSpeed{label: "1/2", x: on})
	firings = append(firings, shutter.Firing{Open: 70}, shutter.Firing{Open: 80, Unfit: "the clip ends before it closes"})
	laying.Doubts = []assign.Doubt{{Firing: 6, Reason: "an extra firing"}}
	got := Judge(firings, laying, Standard())
	if len(got.Symptoms) != 1 || !slices.Equal(got.Symptoms[0].Firings, []int{6}) || got.Verdict != ServiceAdvised {
		t.Errorf("symptoms %+v, verdict %v, want firing 7 hanging and service advised", got.Symptoms, got.Verdict)
	}
	if f := got.Firings[7]; len(f.Symptoms) != 0 || f.Reason != "the clip ends before it closes" {
		t.Errorf("the last firing: %v, %q, want no symptom", f.Symptoms, f.Reason)
	}
}

func TestAMeanThatWouldMisleadIsHidden(t *testing.T) {
	cases := []struct {
		name string
		x    []float64
		want bool
	}{
		{"three alike", []float64{0, 0.02, 0.01}, false},
		{"one closing early", []float64{0, 0.02, -1.2}, true},
		{"all closing early alike", []float64{-1.2, -1.21, -1.19}, false},
		{"one hanging open", []float64{0, 0.02, judgeHung}, true},
		{"erratic", []float64{0, 0.2, 0.4}, true},
		{"freeing up beyond the spread limit", []float64{0.9, 0.6, 0.4, 0.3, 0.2}, true},
		{"freeing up within it", []float64{0.4, 0.35, 0.3, 0.25, 0.2}, false},
	}
	for _, c := range cases {
		got := judgeOne(t, judgeSpeed{label: "1/8", x: c.x}).Summary
		if got.MeanHidden != c.want {
			t.Errorf("%s: mean hidden %v, want %v", c.name, got.MeanHidden, c.want)
		}
		if hidden := got.Deviation == 0 && got.Duration == 0 && got.U95 == 0; hidden != c.want {
			t.Errorf("%s: summary %+v", c.name, got)
		}
		if got.Median == 0 && got.First == 0 {
			t.Errorf("%s: no median and first firing in %+v", c.name, got)
		}
	}
}

// A firing that hangs by any of the speeds told hangs, whichever it was made at.
func TestAFiringThatStayedOpenAtWhicheverSpeedHangs(t *testing.T) {
	firings := firedFor(1, 1, 6.4, 0.5, 0.5, 0.5)
	one, half := shutter.Mark{Label: "1", Nominal: 1}, shutter.Mark{Label: "1/2", Nominal: 0.5}
	laying := assign.Laying{
		Runs:   []assign.Run{{Mark: one, Firings: []int{0, 1}}, {Mark: half, Firings: []int{2, 3, 4, 5}}},
		Doubts: []assign.Doubt{{Firing: 2, Reason: "could be 1 or 1/2"}},
	}
	names := func() (names []SymptomName) {
		for _, s := range Judge(firings, laying, Standard()).Symptoms {
			names = append(names, s.Name)
		}
		return names
	}
	if got := names(); !slices.Equal(got, []SymptomName{HangsOpen}) {
		t.Errorf("open for 6.4 s at 1 or 1/2: %v", got)
	}
	firings[2].Close = firings[2].Open + 3.8 // hangs at 1/2, and perhaps not at 1
	if got := names(); len(got) > 0 {
		t.Errorf("open for 3.8 s at 1 or 1/2: %v", got)
	}
}
