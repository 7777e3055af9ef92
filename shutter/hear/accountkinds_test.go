package hear_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"earshot/dsp/synth"
	"earshot/shutter"
	"earshot/shutter/hear"
)

func TestFiringsOfEveryKindAreExplained(t *testing.T) {
	fast := []synth.Setting{{Label: "1/8", Nominal: 0.125, Count: 3}, {Label: "1/250", Nominal: 1.0 / 256, Count: 2}}
	for _, tt := range []struct {
		name string
		take synth.Take
		kind shutter.Kind
		says string // of one firing at least
	}{
		{"in a reflex body", take(synth.Draw(3, synth.Reflex), slow(2)), shutter.Leaf, "as openings of this camera follow its release"},
		{"of two curtains", curtains(3), shutter.FocalPlane, "its opening is "},
		{"so fast that both ends are one sound", take(leaf(1), fast), shutter.Leaf, "opening and closing are one sound"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			src, _ := recorded(t, 3, tt.take)
			if said := explained(t, hearKind(t, src, 0, tt.kind)); !strings.Contains(said, tt.says) {
				t.Errorf("no firing says %q:\n%s", tt.says, said)
			}
		})
	}
}

func TestAnOpeningThatNothingClosedIsExplained(t *testing.T) {
	hanging := fire([]synth.Setting{{Label: "1/2", Nominal: 0.5, Count: 2}, {Label: "1/8", Nominal: 0.125, Count: 4}},
		faulty(synth.Fault{Symptom: synth.HangsOpen, Grade: 4, Share: 0.25, Marks: []string{"1/8"}}))
	for seed := range seeds {
		src, _ := played16(t, inRoom(hanging)(seed))
		heard := hearKind(t, src, 0, shutter.Leaf)
		if !slices.ContainsFunc(heard.Firings, func(f shutter.Firing) bool { return !f.Closed }) {
			continue
		}
		if said := explained(t, heard); !strings.Contains(said, "nothing like their closings after it") {
			t.Errorf("seed %d:\n%s", seed, said)
		}
		return
	}
	t.Fatal("nothing hangs in any recording")
}

// explained is all that is said of the firings heard, each of which must be explained by
// its own opening.
func explained(t *testing.T, heard hear.Heard) string {
	t.Helper()
	var said []string
	for i, f := range heard.Firings {
		c := heard.Account.Firing(i).Candidates[0]
		if math.Abs(c.Open-f.Open) > 0.025 { // the curtains' start to their stop, 20 ms, and a little
			t.Errorf("firing %d at %.3f s is explained by the sound at %.3f s", i+1, f.Open, c.Open)
		}
		for _, v := range c.Evidence {
			if math.IsNaN(v.Weight) || math.IsInf(v.Weight, 0) {
				t.Errorf("firing %d: %v", i+1, v)
			}
			said = append(said, v.What)
		}
		said = append(said, c.Why)
	}
	return strings.Join(said, "\n")
}

func TestPairsOfWhatIsNoShutterAreExplained(t *testing.T) {
	src, _ := recorded(t, 1, synth.Take{Length: 20, Clock: &synth.Clock{Every: 0.5, Jitter: 0.0005}})
	heard := hearKind(t, src, 0, shutter.Leaf)
	if len(heard.Firings) > 0 {
		t.Fatalf("%d firings are heard of a clock", len(heard.Firings))
	}
	e := heard.Account.Near(10)
	if len(e.Candidates) == 0 {
		t.Fatalf("no pair: %+v", e)
	}
	for _, c := range e.Candidates {
		if !strings.HasPrefix(c.Why, "no firing: ") {
			t.Errorf("%q", c.Why)
		}
	}
}
