package hear

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"earshot/shutter"
	"earshot/shutter/assign"
	"earshot/shutter/judge"
)

// heardThree is a clip of 20 s in which three firings of 1 s were heard, and of a
// fourth nothing but its opening.
func heardThree() Heard {
	buzz := shutter.Buzz{Heard: true, Rate: 200, Level: -25}
	h := Heard{unheard: unheard{end: 20}}
	for _, open := range []float64{1, 4, 7} {
		h.Firings = append(h.Firings, shutter.Firing{Open: open, Close: open + 1, Closed: true, U: 2e-5, Edge: shutter.EdgeStart, Buzz: buzz})
	}
	h.Firings = append(h.Firings, shutter.Firing{Open: 10, Edge: shutter.EdgeStart})
	return h
}

func closedAt(open, close float64) shutter.HandTimed {
	return shutter.HandTimed{Open: open, Close: close, Closed: true}
}

func TestTimesSetByHandTakeThePlaceOfThoseHeard(t *testing.T) {
	one, two, three, hung := closedAt(1, 2), closedAt(4, 5), closedAt(7, 8), shutter.HandTimed{Open: 10}
	for _, c := range []struct {
		name string
		set  []shutter.HandTimed
		step float64
		want string // each firing, then the counts
	}{
		{"unchanged, all are as heard", []shutter.HandTimed{one, two, three, hung}, 1e-6, "1-2 4-5 7-8 10- | 4 0 0 0"},
		{"an end moved makes both set by hand", []shutter.HandTimed{closedAt(1, 2.25), two, three, hung}, 1e-6, "1-2.25h 4-5 7-8 10- | 3 1 0 0"},
		{"an end moved by less than an editor can tell is as heard", []shutter.HandTimed{closedAt(1.00006, 2), two, three, hung}, 1e-6, "1-2 4-5 7-8 10- | 4 0 0 0"},
		{"times of three decimals are as heard to half the third", []shutter.HandTimed{closedAt(1.0004, 2), two, three, hung}, 1e-3, "1-2 4-5 7-8 10- | 4 0 0 0"},
		{"times of one decimal are no excuse for a move of 2 ms", []shutter.HandTimed{closedAt(1.002, 2), two, three, hung}, 0.1, "1.002-2h 4-5 7-8 10- | 3 1 0 0"},
		{"a firing can be taken out", []shutter.HandTimed{one, three, hung}, 1e-6, "1-2 7-8 10- | 3 0 0 1"},
		{"a firing can be added", []shutter.HandTimed{one, two, three, hung, closedAt(13, 14)}, 1e-6, "1-2 4-5 7-8 10- 13-14h | 4 0 1 0"},
		{"a hung firing can be given its closing", []shutter.HandTimed{one, two, three, closedAt(10, 11)}, 1e-6, "1-2 4-5 7-8 10-11h | 3 1 0 0"},
		{"a firing can be said not to have closed", []shutter.HandTimed{one, two, {Open: 7.001}, hung}, 1e-6, "1-2 4-5 7.001-h 10- | 3 1 0 0"},
		{"one of two labels within a firing is new", []shutter.HandTimed{closedAt(1, 1.4), closedAt(1.5, 2)}, 1e-6, "1-1.4h 1.5-2h | 0 1 1 3"},
		{"nothing set is nothing fired", nil, 1, "| 0 0 0 4"},
	} {
		got := heardThree().Correct(c.set, c.step)
		words := ""
		for _, f := range got.Firings {
			words += fmt.Sprintf("%g-", f.Open)
			if f.Closed {
				words += fmt.Sprintf("%g", f.Close)
			}
			if f.Edge == shutter.EdgeHand {
				words += "h"
			}
			words += " "
		}
		words += fmt.Sprintf("| %d %d %d %d", got.AsHeard, got.Moved, got.Added, len(got.LeftOut))
		if words != c.want {
			t.Errorf("%s: got %s, want %s", c.name, words, c.want)
		}
	}
}

func TestATimeSetByHandIsNoSurerThanAHandOrItsDecimals(t *testing.T) {
	set := []shutter.HandTimed{closedAt(1, 2.25)}
	fine := heardThree().Correct(set, 1e-6).Firings[0]
	if got, want := fine.U, 0.0014142; math.Abs(got-want) > 1e-6 { // two ends of 1 ms each
		t.Errorf("u is %g s, want %g", got, want)
	}
	// A rectangle of ±50 ms has a standard deviation of 28.87 ms (JCGM 100:2008, 4.3.7),
	// and two ends √2 times that, with the hand's 1 ms a little more.
	if got, want := heardThree().Correct(set, 0.1).Firings[0].U, 0.04085; math.Abs(got-want) > 1e-5 {
		t.Errorf("of times with one decimal u is %g s, want %g", got, want)
	}
	if !fine.Buzz.Heard {
		t.Error("moving an end silenced the escapement")
	}
}

// A falter is so long after an opening, and blades move where they were heard: neither
// can be evidence once a hand has put the ends elsewhere.
func TestATimeSetByHandIsNoEvidenceOfHowItMoved(t *testing.T) {
	h := heardThree()
	for i := range h.Firings[:3] {
		f := &h.Firings[i]
		f.Buzz.Falters = []shutter.Falter{{Start: 0.4, Length: 0.1}}
		f.Closing, f.Bounce = shutter.Blades{Level: -40, Strength: -12, Drawn: 3}, 0.02
	}
	c := h.Correct([]shutter.HandTimed{closedAt(1, 2), closedAt(4.01, 5)}, 1e-6)
	laying := assign.Laying{Runs: []assign.Run{{Mark: shutter.Mark{Label: "1", Nominal: 1}, Firings: []int{0, 1}}}}
	for i, want := range []bool{true, false} {
		if got := len(judge.Judge(c.Firings, laying, judge.Standard()).Firings[i].Symptoms) > 0; got != want {
			t.Errorf("firing %d has symptoms: %v, want %v", i, got, want)
		}
	}
}

func TestWhatAClipCannotTellIsNotToldByHandEither(t *testing.T) {
	h := heardThree()
	h.unheard.lost = [][2]float64{{13.5, 13.6}}
	got := h.Correct([]shutter.HandTimed{closedAt(13, 14), {Open: 19}}, 1e-6).Firings
	if got[0].Unfit != "samples were lost inside" || got[1].Unfit != "the clip ends before it closes" {
		t.Errorf("unfit for %q and %q", got[0].Unfit, got[1].Unfit)
	}
}

func TestEveryFiringHeardAndSetIsAccountedFor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var set []shutter.HandTimed
		at := 0.0
		for range rapid.IntRange(0, 8).Draw(t, "firings") {
			open := at + rapid.Float64Range(0.01, 4).Draw(t, "pause")
			at = open + rapid.Float64Range(0.001, 3).Draw(t, "time")
			set = append(set, closedAt(open, at))
		}
		c := heardThree().Correct(set, 1e-6)
		if len(c.Firings) != len(set) || c.AsHeard+c.Moved+c.Added != len(set) || c.AsHeard+c.Moved+len(c.LeftOut) != 4 {
			t.Fatalf("of %d set: %+v", len(set), c)
		}
		for i, f := range c.Firings {
			if f.Edge == shutter.EdgeHand && f.Duration() != set[i].Close-set[i].Open {
				t.Fatalf("firing %d lasts %g s, set to %g", i, f.Duration(), set[i].Close-set[i].Open)
			}
		}
	})
}
