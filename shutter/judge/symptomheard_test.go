package judge

import (
	"slices"
	"strings"
	"testing"

	"earshot/shutter"
	"earshot/shutter/hear/timing"
)

// judgeHeard judges 1/2 fired four times beside three healthy speeds, after its
// firings were changed.
func judgeHeard(t *testing.T, change func(f []shutter.Firing)) Speed {
	t.Helper()
	on := []float64{0, -0.01, 0.01, 0}
	firings, laying := judgeFired(t, judgeSpeed{label: "1/2", x: on},
		judgeSpeed{label: "1", x: on}, judgeSpeed{label: "1/4", x: on}, judgeSpeed{label: "1/8", x: on})
	for i := range firings {
		wave := float64(i%3-1) * 0.8
		firings[i].Opening = shutter.Blades{Level: -25 + wave, Strength: wave, Lead: 0.003, Drawn: 1}
		firings[i].Closing = shutter.Blades{Level: -23 - wave, Strength: -wave, Lead: 0.003, Drawn: 1 + wave/10}
	}
	change(firings)
	for _, s := range Judge(firings, laying, Standard()).Speeds {
		if s.Mark.Label == "1/2" {
			return s
		}
	}
	t.Fatal("1/2 was not judged")
	return Speed{}
}

// stall lets the escapement stand still for so many s.
func stall(f *shutter.Firing, seconds float64) {
	f.Buzz.Falters = []shutter.Falter{{Start: 0.05, Length: seconds}}
	f.Close += seconds
}

func TestSymptomsHeardInSingleFirings(t *testing.T) {
	falter := []shutter.Falter{{Start: 0.05, Length: 0.06}}
	cases := []struct {
		name    string
		change  func(f []shutter.Firing)
		want    []SymptomName
		firings []int
		why     string // a part of it
	}{
		{"nothing", func([]shutter.Firing) {}, nil, nil, ""},
		{"a buzz that falters", func(f []shutter.Firing) { stall(&f[1], 0.06) }, []SymptomName{Hesitates}, []int{1},
			"the buzz of firing 2 falters 50.0 ms after the opening for 60.0 ms, and goes on"},
		{"two that falter", func(f []shutter.Firing) { stall(&f[1], 0.04); stall(&f[3], 0.06) }, []SymptomName{Hesitates}, []int{1, 3}, "in firings 2 and 4, for up to 60.0 ms"},
		{"one that lasts no longer than the others, as where speech pauses", func(f []shutter.Firing) { f[1].Buzz.Falters = falter }, nil, nil, ""},
		{"all that falter, of which none can be longer than the others", func(f []shutter.Firing) {
			for i := range 4 {
				f[i].Buzz.Falters = falter
			}
		}, []SymptomName{Hesitates}, []int{0, 1, 2, 3}, "in firings 1, 2, 3 and 4"},
		{"what falters and is erratic is erratic, and says why", func(f []shutter.Firing) { stall(&f[1], 0.2) }, []SymptomName{Erratic}, []int{0, 1, 2, 3},
			"; the buzz of firing 2 falters"},
		{"a weak opening", func(f []shutter.Firing) { f[2].Opening.Strength = -9 }, []SymptomName{LazyBlades}, []int{2}, "in firing 3 the opening is 9 dB weaker"},
		{"a weak closing", func(f []shutter.Firing) { f[0].Closing.Strength = -8 }, []SymptomName{LazyBlades}, []int{0}, "in firing 1 the closing is 8 dB weaker"},
		{"one hardly weaker", func(f []shutter.Firing) { f[0].Closing.Strength = -5 }, nil, nil, ""},
		{"both weak alike, as from further off", func(f []shutter.Firing) { f[0].Closing.Strength, f[0].Opening.Strength = -9, -8 }, nil, nil, ""},
		{"a weak closing of which the opening could not be measured, which may be further off", func(f []shutter.Firing) { f[0].Opening, f[0].Closing.Strength = shutter.Blades{}, -9 }, nil, nil, ""},
		{"a drawn-out opening that strikes as weakly as one so slow does", func(f []shutter.Firing) { f[3].Opening.Drawn, f[3].Opening.Strength = 2.8, -5.5 }, []SymptomName{LazyBlades}, []int{3}, "the opening is drawn out 2.8 times as long"},
		{"one hardly longer", func(f []shutter.Firing) { f[3].Opening.Drawn, f[3].Opening.Strength = 1.8, -5.5 }, nil, nil, ""},
		{"one that strikes as hard as ever, and something was heard before it", func(f []shutter.Firing) { f[3].Opening.Drawn, f[3].Closing.Drawn = 2.8, 32 }, nil, nil, ""},
		{"blades that bounce open again", func(f []shutter.Firing) { f[1].Bounce = 0.021 }, []SymptomName{LazyBlades}, []int{1}, "bounced open again 21.0 ms after closing"},
		{"blades that bounce open again alike", func(f []shutter.Firing) { f[1].Bounce, f[2].Bounce = 0.021, 0.021 }, []SymptomName{LazyBlades}, []int{1, 2}, "in firings 2 and 3 the blades bounced open again 21.0 ms after closing"},
		{"blades lazy in every way, where the recorder turned itself down", func(f []shutter.Firing) {
			f[0].Closing.Strength, f[1].Bounce, f[3].Opening.Drawn = -8, 0.021, 2.8
			timing.Levelled(f)
		}, nil, nil, ""},
		{"a firing that hesitates is not called lazy too", func(f []shutter.Firing) { stall(&f[1], 0.06); f[1].Bounce = 0.02 }, []SymptomName{Hesitates}, []int{1}, ""},
		{"another can be", func(f []shutter.Firing) { stall(&f[1], 0.06); f[2].Bounce = 0.02 }, []SymptomName{Hesitates, LazyBlades}, []int{1}, ""},
	}
	for _, c := range cases {
		got := judgeHeard(t, c.change)
		if names := symptomNames(got); !slices.Equal(names, c.want) {
			t.Errorf("%s: %v, want %v", c.name, names, c.want)
			continue
		}
		if (len(c.want) > 0) != (got.Verdict == ServiceAdvised) {
			t.Errorf("%s: verdict %v", c.name, got.Verdict)
		}
		if len(c.want) == 0 {
			continue
		}
		y := got.Symptoms[0]
		if !slices.Equal(y.Firings, c.firings) || !strings.Contains(y.Why, c.why) || !strings.HasSuffix(y.Cause, "(common practice, no source)") {
			t.Errorf("%s: %+v, want it to rest on %v and to say %q", c.name, y, c.firings, c.why)
		}
	}
}

// Gain control makes levels wander; then one more that is off by as much tells nothing.
func TestLevelsThatWanderMakeNoBladesLazy(t *testing.T) {
	got := judgeHeard(t, func(f []shutter.Firing) {
		for i := range f {
			f[i].Closing.Strength = 4 * float64(i%4-2)
		}
	})
	if len(got.Symptoms) != 0 {
		t.Errorf("symptoms %v, want none", symptomNames(got))
	}
}
