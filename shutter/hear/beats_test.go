package hear_test

import (
	"math"
	"slices"
	"testing"

	"earshot/dsp/synth"
	"earshot/shutter"
)

// heardFirings pairs the firings of a recording with what was heard of them.
func heardFirings(t *testing.T, seed uint64, take synth.Take, see func(made synth.Firing, heard shutter.Firing)) {
	t.Helper()
	src, truth := recorded(t, seed, take)
	firings := heardIn(t, src, 0)
	for _, made := range truth.Firings {
		i := slices.IndexFunc(firings, func(f shutter.Firing) bool { return math.Abs(f.Open-made.Open.Start) < 0.02 })
		if i < 0 {
			t.Errorf("seed %d: the firing at %.2f s was not heard", seed, made.Open.Start)
			continue
		}
		see(made, firings[i])
	}
}

// buzzing fires a shutter whose escapement is well heard, with a fault or none.
func buzzing(seed uint64, settings []synth.Setting, faults ...synth.Fault) synth.Take {
	s := leaf(seed)
	s.BeatRate, s.BuzzLevel, s.DropOut, s.RunDown = 60*math.Pow(10, float64(seed%7)/7), -25, 1.0/20, 0.2
	s.Faults = faults
	return take(s, settings)
}

func TestBeatsAreCountedEarlyAndLate(t *testing.T) {
	counted, halved, of := 0, 0, 0
	for seed := uint64(1); seed <= 7; seed++ {
		heardFirings(t, seed, buzzing(seed, synth.Fire(synth.Modern()[:3], 1)), func(made synth.Firing, heard shutter.Firing) {
			of++
			if heard.Buzz.Rate == 0 {
				return
			}
			counted++
			run, b := made.Duration(), heard.Buzz
			rate := func(at float64) float64 { return made.BeatRate * math.Pow(1-0.2*math.Min(1, run), at/run) }
			if b.Early == 0 { // too short to tell
				b.Early, b.Late = b.Rate*rate(0.08)/rate(run/2), b.Rate*rate(run-0.07)/rate(run/2)
			}
			if half := 2 * b.Rate / rate(run/2); math.Abs(half-1) < 0.05 {
				halved++
				return
			}
			if early, late := b.Early/rate(0.08), b.Late/rate(run-0.07); math.Abs(early-1) > 0.05 || math.Abs(late-1) > 0.05 {
				t.Errorf("seed %d, %s: %.0f beats early and %.0f late, made %.0f and %.0f", seed, made.Label, b.Early, b.Late, rate(0.08), rate(run-0.07))
			}
			if len(b.Falters) > 0 {
				t.Errorf("seed %d, %s: falters %v, and it did not", seed, made.Label, b.Falters)
			}
		})
	}
	if 10*counted < 9*of {
		t.Errorf("beats counted in %d of %d firings", counted, of)
	}
	if halved > 1 {
		t.Errorf("only every other beat was counted in %d firings", halved)
	}
}

func TestAFalterIsFoundWhereItIs(t *testing.T) {
	found, of := 0, 0
	for seed := uint64(1); seed <= 7; seed++ {
		fault := synth.Fault{Symptom: synth.Hesitates, Grade: 0.12, Share: 1}
		heardFirings(t, seed, buzzing(seed, synth.Fire(synth.Modern()[:3], 1), fault), func(made synth.Firing, heard shutter.Firing) {
			of++
			if len(heard.Buzz.Falters) == 0 {
				return
			}
			found++
			f, run := heard.Buzz.Falters[0], made.Duration()
			if len(heard.Buzz.Falters) > 1 || math.Abs(f.Length-0.12) > 0.03 || f.Start < 0.2*run || f.Start+f.Length > 0.9*run {
				t.Errorf("seed %d, %s: falters %v in a firing of %.2f s; want one of 0.12 s well inside", seed, made.Label, heard.Buzz.Falters, run)
			}
		})
	}
	if 10*found < 9*of {
		t.Errorf("found in %d of %d firings", found, of)
	}
}

func TestBladesThatAreWeakOrBounceAreHeardToBe(t *testing.T) {
	for seed := uint64(1); seed <= 3; seed++ {
		lazy := synth.Fault{Symptom: synth.LazyBlades, Grade: 9, Share: 0.3}
		heardFirings(t, seed, buzzing(seed, synth.Fire(synth.Modern()[1:4], 3), lazy), func(made synth.Firing, heard shutter.Firing) {
			weakest := math.Min(heard.Opening.Strength, heard.Closing.Strength)
			if weak := slices.Contains(made.Symptoms, synth.LazyBlades); weak != (weakest < -6) {
				t.Errorf("seed %d, %s: opening %.1f dB, closing %.1f dB, weak %v", seed, made.Label, heard.Opening.Strength, heard.Closing.Strength, weak)
			}
			if heard.Bounce > 0 {
				t.Errorf("seed %d, %s: bounced after %g s, and it did not", seed, made.Label, heard.Bounce)
			}
		})
		bounce := synth.Fault{Symptom: synth.BouncesOpen, Grade: 0.02, Share: 0.3}
		heardFirings(t, seed, buzzing(seed, synth.Fire(synth.Modern()[1:4], 3), bounce), func(made synth.Firing, heard shutter.Firing) {
			if did := slices.Contains(made.Symptoms, synth.BouncesOpen); did != (heard.Bounce > 0) {
				t.Errorf("seed %d, %s: bounced %v, heard after %g s", seed, made.Label, did, heard.Bounce)
			}
		})
	}
}

// A stop slow, an escapement of 76 beats a second makes 38, and runs down by a fifth.
func TestTheBeatsOfASlowedEscapementAreCounted(t *testing.T) {
	counted, of := 0, 0
	for seed := uint64(1); seed <= 4; seed++ {
		slow := synth.Fault{Symptom: synth.SlowEscapement, Grade: 1}
		sitting := buzzing(seed, synth.Fire(synth.Modern()[:3], 3), slow)
		sitting.Shutter.BeatRate = 76
		heardFirings(t, seed, sitting, func(made synth.Firing, heard shutter.Firing) {
			of++
			if math.Abs(heard.Buzz.Rate/made.BeatRate-1) < 0.2 && made.BeatRate < 45 {
				counted++
			}
		})
	}
	if 4*counted < 3*of {
		t.Errorf("the beats of %d in %d firings were counted", counted, of)
	}
}
