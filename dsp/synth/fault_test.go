package synth

import (
	"math"
	"slices"
	"testing"
)

// ailing fires a shutter that is perfect but for its faults.
func ailing(t *testing.T, settings []Setting, faults ...Fault) Truth {
	t.Helper()
	s := Draw(21, Leaf)
	s.Deviation, s.Uneven, s.Scatter, s.BeatRate, s.DropOut = 0, 0, 0, 200, 1.0/12
	s.Faults = faults
	return sitting(t, s, settings, 21)
}

// deviations are the firings' deviations at a mark, stops.
func (t Truth) deviations(mark string) []float64 {
	var out []float64
	for _, f := range t.Firings {
		if f.Label == mark && f.Closes {
			out = append(out, math.Log2(f.Duration()/f.Nominal))
		}
	}
	return out
}

// showing counts the firings that show a symptom.
func (t Truth) showing(s Symptom) int {
	n := 0
	for _, f := range t.Firings {
		if slices.Contains(f.Symptoms, s) {
			n++
		}
	}
	return n
}

func wantAll(t *testing.T, got []float64, want float64) {
	t.Helper()
	for _, v := range got {
		if math.Abs(v-want) > 1e-9 {
			t.Errorf("deviations %v, want %g", got, want)
			return
		}
	}
}

func TestASlowEscapementSlowsWhatItHoldsBack(t *testing.T) {
	truth := ailing(t, Fire(Modern()[:6], 2), Fault{Symptom: SlowEscapement, Grade: 0.7})
	wantAll(t, truth.deviations("1"), 0.7)
	wantAll(t, truth.deviations("1/8"), 0.7)
	wantAll(t, truth.deviations("1/15"), 0)
}

func TestAnUnevenStepIsOffAtItsMarkAlone(t *testing.T) {
	truth := ailing(t, Fire(Modern()[:4], 2), Fault{Symptom: UnevenSteps, Grade: -0.5, Marks: []string{"1/4"}})
	wantAll(t, truth.deviations("1/4"), -0.5)
	wantAll(t, truth.deviations("1/2"), 0)
}

func TestAShutterThatNeedsExerciseFreesUp(t *testing.T) {
	truth := ailing(t, Fire(Modern()[:4], 5), Fault{Symptom: NeedsExercise, Grade: 0.9})
	for _, mark := range []string{"1", "1/2", "1/4", "1/8"} {
		d := truth.deviations(mark)
		if !slices.IsSortedFunc(d, func(a, b float64) int { return int(math.Copysign(1, b-a)) }) {
			t.Errorf("deviations at %s do not fall: %v", mark, d)
		}
		if drop := d[0] - d[4]; drop < 1.0/6 {
			t.Errorf("at %s it frees up by %.2f stop only", mark, drop)
		}
	}
}

func TestAnErraticShutterScatters(t *testing.T) {
	d := ailing(t, Fire(Modern()[2:3], 200), Fault{Symptom: Erratic, Grade: 0.3}).deviations("1/4")
	sum := 0.0
	for _, v := range d {
		sum += v * v
	}
	if sd := math.Sqrt(sum / float64(len(d))); math.Abs(sd-0.3) > 0.05 {
		t.Errorf("standard deviation %.3f stop, want 0.3", sd)
	}
}

func TestClosingEarlyCutsItsShareOfFirings(t *testing.T) {
	truth := ailing(t, Fire(Modern()[:1], 10), Fault{Symptom: ClosesEarly, Grade: 1.5, Share: 0.3})
	d := truth.deviations("1")
	slices.Sort(d)
	wantAll(t, d[:3], -1.5)
	wantAll(t, d[3:], 0)
	if n := truth.showing(ClosesEarly); n != 3 {
		t.Errorf("%d firings show it, want 3", n)
	}
}

func TestAHangingShutterIsLeftOpenForLong(t *testing.T) {
	truth := ailing(t, Fire(Modern()[:3], 3), Fault{Symptom: HangsOpen, Share: 0.3})
	if n := truth.showing(HangsOpen); n != 3 {
		t.Fatalf("%d firings hang, want one at each mark", n)
	}
	for i, f := range truth.Firings {
		if f.Closes == slices.Contains(f.Symptoms, HangsOpen) {
			t.Errorf("firing %d: closes %v, symptoms %v", i, f.Closes, f.Symptoms)
		}
		if f.Closes {
			continue
		}
		for _, s := range truth.Sounds {
			if s.Start > f.Open.Stop && s.Start < f.Open.Start+f.Nominal+3.4 {
				t.Errorf("firing %d: %s while it hangs", i, s.Kind)
			}
		}
		if i+1 < len(truth.Firings) && truth.Firings[i+1].Open.Start < f.Open.Start+f.Nominal+3.4 {
			t.Errorf("firing %d: fired again while it hangs", i)
		}
	}
}

func TestAHesitatingEscapementStandsStillAndGoesOn(t *testing.T) {
	s := bareShutter(21)
	s.BeatRate, s.Deviation, s.Uneven, s.Scatter = 200, 0, 0, 0
	s.Faults = []Fault{{Symptom: Hesitates, Grade: 0.15, Share: 1}}
	c := mustClip(t, Recording{Seed: 1, Take: Take{Shutter: s, Settings: Fire(Modern()[1:2], 2)}})
	x := c.Samples()[0]
	for i, f := range c.Truth.Firings {
		if math.Abs(f.Duration()-0.65) > 1e-9 {
			t.Errorf("firing %d lasts %g s, want 0.65", i, f.Duration())
		}
		quiet, longest := 0, 0
		for _, v := range x[int((f.Open.Stop+0.05)*48000):int(f.Close.Start*48000)] {
			if quiet++; math.Abs(v) > 1e-5 {
				quiet = 0
			}
			longest = max(longest, quiet)
		}
		if ms := float64(longest) / 48; ms < 90 || ms > 160 {
			t.Errorf("firing %d: the buzz pauses for %.0f ms, want about 150 less a beat's decay", i, ms)
		}
	}
}

func TestLazyBladesAreWeakerAndSlower(t *testing.T) {
	sound := ailing(t, Fire(Modern()[2:3], 20)).Firings
	for i, f := range ailing(t, Fire(Modern()[2:3], 20), Fault{Symptom: LazyBlades, Grade: 9, Share: 1}).Firings {
		lazy := max(f.Open.Stop-f.Open.Start, f.Close.Stop-f.Close.Start)
		if healthy := sound[i].Open.Stop - sound[i].Open.Start; lazy < 2*healthy {
			t.Errorf("firing %d: a lazy stroke of %.1f ms, a healthy one of %.1f", i, 1e3*lazy, 1e3*healthy)
		}
	}
}

func TestBladesThatBounceOpenOpenAgain(t *testing.T) {
	truth := ailing(t, Fire(Modern()[2:3], 3), Fault{Symptom: BouncesOpen, Grade: 0.01, Share: 1})
	again := truth.sounds("bounces open")
	if len(again) != 3 || len(truth.sounds("closes again")) != 3 {
		t.Fatalf("%d of 3 bounced", len(again))
	}
	for i, f := range truth.Firings {
		if d := again[i].Start - f.Close.Stop; math.Abs(d-0.01) > 1e-9 {
			t.Errorf("firing %d bounces after %g s", i, d)
		}
	}
}
