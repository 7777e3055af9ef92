package hear

import (
	"context"
	"math"
	"strings"
	"sync"
	"testing"

	"earshot/dsp"
	"earshot/dsp/synth"
	"earshot/shutter"
	"earshot/shutter/hear/timing"
)

// told is a clip of which an account is asked for.
type told struct {
	clip  *recordedClip
	heard Heard
	truth synth.Truth
}

// demoTold hears a lens of the demo, once for all tests.
var demoTold = sync.OnceValue(func() map[string]told {
	all := map[string]told{}
	for _, l := range synth.Demo(1) {
		if l.File != "corvane-105.wav" && l.File != "vastrel-90.wav" {
			continue
		}
		clip, err := l.Recording.Clip()
		if err != nil {
			panic(err)
		}
		h, err := dsp.Listen(clip)
		if err != nil {
			panic(err)
		}
		r := newRecordedClip(h, clip, shutter.Leaf)
		heard, err := find(context.Background(), h, clip, Options{Kind: shutter.Leaf})
		if err != nil {
			panic(err)
		}
		all[l.File] = told{r, heard, clip.Truth}
	}
	return all
})

func TestAPairIsToldByTheTermsThatScoredIt(t *testing.T) {
	for file, d := range demoTold() {
		pairs := d.clip.pairs(context.Background())
		if len(pairs) < 100 {
			t.Fatalf("%s: only %d pairs", file, len(pairs))
		}
		for _, p := range pairs {
			if sum := sumOf(d.clip.terms(p)); sum != p.evidence {
				t.Fatalf("%s: the pair from %.3f to %.3f s: its terms add up to %g, its evidence is %g", file, d.clip.sounds[p.open].at, d.clip.sounds[p.close].at, sum, p.evidence)
			}
		}
	}
}

func TestASetIsToldByTheTermsThatScoredIt(t *testing.T) {
	for file, d := range demoTold() {
		c, err := d.clip.choose(t.Context(), d.clip.pairs(t.Context()))
		if err != nil {
			t.Fatal(err)
		}
		a := d.heard.Account
		a.learn()
		if left := sumOf(a.setTerms()); math.Abs(left-c.net) > 1e-9 || left <= 0 {
			t.Errorf("%s: the terms of the set add up to %g, it was chosen with %g", file, left, c.net)
		}
	}
}

func TestAFiringIsExplainedByItsOwnEnds(t *testing.T) {
	for file, d := range demoTold() {
		for i, f := range d.heard.Firings {
			e := d.heard.Account.Firing(i)
			c := e.Candidates[0]
			if math.Abs(c.Open-f.Open) > timing.SameSound || f.Closed && math.Abs(c.Close-f.Close) > timing.SameSound || f.Closed == math.IsInf(c.Close, 1) {
				t.Errorf("%s, firing %d: explained by sounds at %.3f and %.3f s, heard from %.3f to %.3f s", file, i+1, c.Open, c.Close, f.Open, f.Close)
			}
			if c.Total() <= 0 || !strings.HasPrefix(c.Why, "a firing: ") {
				t.Errorf("%s, firing %d: evidence %.1f, %q", file, i+1, c.Total(), c.Why)
			}
			if e.Sounds[0].At > c.Open {
				t.Errorf("%s, firing %d: its own opening is not among the sounds: %+v", file, i+1, e.Sounds)
			}
		}
	}
}

func TestABuzzIsNamedWhereThereIsOne(t *testing.T) {
	d := demoTold()["corvane-105.wav"]
	for i, want := range map[int]bool{0: true, 5: true, len(d.heard.Firings) - 1: false} { // 1, 1/2 and 1/30 s
		named := false
		for _, v := range d.heard.Account.Firing(i).Candidates[0].Evidence {
			named = named || strings.Contains(v.What, "buzzes between, ") && v.Weight > 1
		}
		if named != want {
			t.Errorf("firing %d: a buzz is named: %v", i+1, named)
		}
	}
}

// between are the times in the middle between one firing and the next.
func between(d told) []float64 {
	var times []float64
	for i := 1; i < len(d.truth.Firings); i++ {
		if before := d.truth.Firings[i-1]; before.Closes {
			times = append(times, (before.Close.Start+d.truth.Firings[i].Open.Start)/2)
		}
	}
	return times
}

func TestWhatHappensBetweenFiringsIsExplainedAsNone(t *testing.T) {
	for file, d := range demoTold() {
		asked := 0
		for _, at := range between(d) {
			e := d.heard.Account.Near(at)
			if len(e.Candidates)+len(e.Notes) == 0 {
				t.Errorf("%s at %.3f s: nothing is said", file, at)
			}
			for _, c := range e.Candidates {
				asked++
				if !strings.HasPrefix(c.Why, "no firing: ") {
					t.Errorf("%s at %.3f s: %q", file, at, c.Why)
				}
				if c.Total() <= 0 && !strings.Contains(c.Why, "Most against it: ") {
					t.Errorf("%s at %.3f s, evidence %.1f: nothing is named that speaks against it: %q", file, at, c.Total(), c.Why)
				}
			}
		}
		if asked == 0 {
			t.Errorf("%s: no sound between firings was asked about", file)
		}
	}
}

func TestATimeWithinAFiringNamesIt(t *testing.T) {
	d := demoTold()["corvane-105.wav"]
	d.heard.Account.Before = 20
	defer func() { d.heard.Account.Before = 0 }()
	f := d.heard.Firings[2]
	for _, at := range []float64{f.Open, f.Open + 0.001, (f.Open + f.Close) / 2, f.Close} {
		if e := d.heard.Account.Near(at); len(e.Notes) == 0 || e.Notes[0] != "this is within firing 23: --explain 23 says why that is one" {
			t.Errorf("at %.3f s: %q", at, e.Notes)
		}
	}
}

func TestSilenceHasNoCandidates(t *testing.T) {
	a := &Account{r: newRecordedClip(&dsp.Hearing{Format: dsp.Format{Rate: 48000, Channels: 1}, Track: dsp.Track{Step: 480}}, nil, shutter.Leaf)}
	if e := a.Near(3); len(e.Candidates) != 0 || len(e.Notes) != 1 || !strings.Contains(e.Notes[0], "no sound begins") {
		t.Errorf("%+v", e)
	}
}

func TestAnOpeningThatNothingClosedIsExplainedByItsLikeness(t *testing.T) {
	d := demoTold()["corvane-105.wav"]
	a := *d.heard.Account
	a.learn()
	hung := pair{open: a.made[0].open, close: never}
	c := a.candidate(hung, a.terms(hung), stays)
	if len(c.Evidence) != 2 || c.Total() <= 0 || !math.IsInf(c.Close, 1) {
		t.Errorf("%+v", c)
	}
}
