package synth

import (
	"math"
	"slices"
	"testing"
)

// sitting plays a shutter through the settings and returns the truth, unheard.
func sitting(t *testing.T, s *Shutter, settings []Setting, seed uint64) Truth {
	t.Helper()
	c, _ := Take{Shutter: s, Settings: settings}.compose(newDice(seed, 2))
	return c.truth
}

// sounds are the sounds of a kind.
func (t Truth) sounds(kind string) []Sound {
	var out []Sound
	for _, s := range t.Sounds {
		if s.Kind == kind {
			out = append(out, s)
		}
	}
	return out
}

func TestStrokesLastAsLongAsBladesAndCurtainsTake(t *testing.T) {
	for seed := range uint64(25) {
		for _, kind := range []Kind{Leaf, Reflex, FocalPlane} {
			s := Draw(seed, kind)
			least, most := 1.8e-3, 4.3e-3
			if s.Size > 0.6 {
				least, most = 3.7e-3, 8.6e-3
			}
			if kind == FocalPlane {
				least, most = 9e-3, 21e-3
			}
			for _, f := range sitting(t, s, Fire(Modern()[3:5], 1), seed).Firings {
				for _, m := range []Stroke{f.Open, f.Close} {
					if d := m.Stop - m.Start; d < least || d > most {
						t.Errorf("seed %d, %s: a stroke of %.2f ms, want %.1f to %.1f", seed, kind, 1e3*d, 1e3*least, 1e3*most)
					}
				}
			}
		}
	}
}

func TestSoftBladesStartMoreQuietly(t *testing.T) {
	for seed := range uint64(6) {
		var heard [2]float64
		for i, soft := range []bool{false, true} {
			s := bareShutter(seed)
			s.Soft = soft
			c := mustClip(t, Recording{Seed: seed, Take: Take{Shutter: s, Settings: Fire(Modern()[4:5], 1)}})
			f := c.Truth.Firings[0].Open
			x := c.Samples()[0]
			heard[i] = loudestIn(x, f.Start, f.Start+0.5e-3, 48000) / loudestIn(x, f.Stop, f.Stop+2e-3, 48000)
		}
		if less := decibels(heard[0] / heard[1]); less < 6 {
			t.Errorf("seed %d: the first half ms of a soft start lies %.1f dB under that of a sharp one", seed, less)
		}
	}
}

func TestDurationsScatterAboutTheMarks(t *testing.T) {
	for seed := range uint64(20) {
		for _, f := range sitting(t, Draw(seed, Leaf), Fire(Modern()[:6], 2), seed).Firings {
			for _, d := range []float64{f.Duration(), f.StopToStop()} {
				if dev := math.Log2(d / f.Nominal); math.Abs(dev) > 0.55 {
					t.Errorf("seed %d: a healthy shutter is %.2f stops off at %s", seed, dev, f.Label)
				}
			}
		}
	}
}

func TestTheBuzzIsHeardAtSlowSpeedsOnly(t *testing.T) {
	for seed := range uint64(20) {
		s := Draw(seed, Leaf)
		for _, f := range sitting(t, s, Fire(Older()[:6], 1), seed).Firings {
			slow, fast := f.Nominal >= 0.2, f.Nominal <= 1.0/26
			if fast && f.BeatRate != 0 || slow && (f.BeatRate == 0) != (s.BeatRate == 0) {
				t.Errorf("seed %d: at %s the escapement beats %.0f times a second", seed, f.Label, f.BeatRate)
			}
			if f.BeatRate != 0 && (f.BeatRate < 40 || f.BeatRate > 900) {
				t.Errorf("seed %d: %.0f beats/s", seed, f.BeatRate)
			}
		}
	}
}

func TestBeatsComeAtTheirRateAndEndBeforeTheClosing(t *testing.T) {
	for seed := range uint64(10) {
		m := Draw(seed, Leaf).build()
		d := newDice(seed, 0)
		grains := m.gears.sound(d, buzz{from: 2, to: 3, rate: 150, loss: 0.2})
		if n := len(grains); n < 120 || n > 148 {
			t.Errorf("seed %d: %d beats in 1 s, running down from 150/s to 120/s", seed, n)
		}
		if first, last := grains[0].at, grains[len(grains)-1].at; first < 2 || last >= 3 {
			t.Errorf("seed %d: beats from %g to %g s, want all within 2 to 3", seed, first, last)
		}
		early, late := grains[10].at-grains[0].at, grains[len(grains)-1].at-grains[len(grains)-11].at
		if slower := late / early; slower < 1.1 || slower > 1.4 {
			t.Errorf("seed %d: the last beats come %.2f times as slowly as the first, want about 1.25", seed, slower)
		}
	}
}

func TestAReflexBodyClosesOpensExposesAndReopens(t *testing.T) {
	for seed := range uint64(12) {
		truth := sitting(t, Draw(seed, Reflex), Fire(Modern()[:4], 2), seed)
		closes, flaps, reopens := truth.sounds("viewing blades close"), truth.sounds("flaps"), truth.sounds("blades reopen")
		if len(closes) != 8 || len(flaps) != 16 || len(truth.sounds("mirror")) != 8 || len(reopens) < 7 {
			t.Fatalf("seed %d: %d closings, %d flaps, %d reopenings for 8 firings", seed, len(closes), len(flaps), len(reopens))
		}
		for i, f := range truth.Firings {
			if lead := f.Open.Start - closes[i].Start; lead < 0.058 || lead > 0.103 {
				t.Errorf("seed %d: the exposure opens %.1f ms after the first sound", seed, 1e3*lead)
			}
			if fall := flaps[2*i+1].Start - f.Close.Stop; fall < 0.0999 {
				t.Errorf("seed %d: the flaps fall %.0f ms after closing", seed, 1e3*fall)
			}
		}
		for _, r := range reopens {
			if !slices.ContainsFunc(truth.sounds("winding"), func(w Sound) bool { return w.Start <= r.Start && r.Start <= w.End }) {
				t.Errorf("seed %d: the blades reopen at %.2f s without winding", seed, r.Start)
			}
		}
	}
}

func TestARatchetClicksEightToTwentyTimes(t *testing.T) {
	for seed := range uint64(20) {
		s := Draw(seed, Leaf)
		s.Winding = RatchetWinding
		w := s.build().windOnce(newDice(seed, 0), 1)
		if len(w.clicks) < 8 || len(w.clicks) > 20 {
			t.Errorf("seed %d: %d clicks", seed, len(w.clicks))
		}
		for i := 1; i < len(w.clicks); i++ {
			if gap := w.clicks[i] - w.clicks[i-1]; gap < 0.012 || gap > 0.075 {
				t.Errorf("seed %d: %.1f ms between clicks", seed, 1e3*gap)
			}
		}
	}
}

func TestNothingElseSoundsJustBeforeAFiring(t *testing.T) {
	take := Take{Shutter: Draw(2, Leaf), Settings: Fire(Modern()[3:6], 4), Clear: 0.3,
		Distractors: []Distractor{{Kind: Speech}, {Kind: Knock}, {Kind: Typing, Share: 0.5}}}
	truth := mustClip(t, Recording{Seed: 2, Take: take}).Truth
	if len(truth.sounds("speech")) != 11 {
		t.Errorf("%d times speech between 12 firings", len(truth.sounds("speech")))
	}
	for _, f := range truth.Firings {
		for _, s := range truth.Sounds {
			if s.Kind != "release lever" && s.End > f.Open.Start-0.3 && s.Start < f.Close.Stop {
				t.Errorf("%s until %.3f s before a firing", s.Kind, f.Open.Start-s.End)
			}
		}
	}
}

func TestASelfTimerRunsBeforeEveryFiring(t *testing.T) {
	take := Take{Shutter: bareShutter(2), Settings: Fire(Modern()[3:4], 2), SelfTimer: true}
	truth := mustClip(t, Recording{Seed: 2, Take: take}).Truth
	for i, s := range truth.sounds("self-timer") {
		if d := s.End - s.Start; d < 6 || d > 10 {
			t.Errorf("a self-timer of %.1f s", d)
		}
		if d := truth.Firings[i].Open.Start - s.End; math.Abs(d) > 1e-9 {
			t.Errorf("it lets go %.3f s before the opening", d)
		}
	}
}
