package synth

import (
	"math"
	"testing"
)

// The tests here look at clean audio as simply as can be: where a sound begins in
// digital silence, the first sample that is not zero tells when.

func TestASoundBeginsWhereTheTruthSaysAndNotASampleBefore(t *testing.T) {
	for seed := range uint64(5) {
		for _, rate := range []int{16000, 192000} {
			r := Recording{Seed: seed, Phone: Phone{Rate: rate},
				Take: Take{Shutter: bareShutter(seed), Settings: Fire(Modern()[4:6], 2)}}
			c := mustClip(t, r)
			x := c.Samples()[0]
			for i, f := range c.Truth.Firings {
				got := firstSound(x, f.Open.Start-0.2, float64(rate))
				if late := (got - f.Open.Start) * float64(rate); late < -1e-6 || late > 2 {
					t.Errorf("seed %d, %d Hz, firing %d: first sound %.2f samples after the truth, want 0 to 2", seed, rate, i, late)
				}
			}
		}
	}
}

func TestAClosingWithoutBuzzBeginsWhereTheTruthSays(t *testing.T) {
	for seed := range uint64(5) {
		s := bareShutter(seed)
		s.BeatRate = 0
		c := mustClip(t, Recording{Seed: seed, Take: Take{Shutter: s, Settings: Fire(Modern()[1:3], 2)}})
		x := c.Samples()[0]
		for i, f := range c.Truth.Firings {
			got := firstSound(x, f.Close.Start-0.1, 48000)
			if late := (got - f.Close.Start) * 48000; late < -1e-6 || late > 2 {
				t.Errorf("seed %d, firing %d: closing %.2f samples after the truth, want 0 to 2", seed, i, late)
			}
		}
	}
}

func TestTheEndStopIsWhereTheTruthSays(t *testing.T) {
	risen, all := 0, 0
	for seed := range uint64(10) {
		c := mustClip(t, Recording{Seed: seed, Take: Take{Shutter: bareShutter(seed), Settings: Fire(Modern()[2:4], 2)}})
		x := c.Samples()[0]
		for _, f := range c.Truth.Firings {
			for _, stop := range []float64{f.Open.Stop, f.Close.Stop} {
				i := int(math.Ceil(stop * 48000))
				all++
				if rms(x[i:i+48]) > rms(x[i-48:i]) {
					risen++
				}
			}
		}
	}
	if share := float64(risen) / float64(all); share < 0.97 {
		t.Errorf("louder in the ms after than before in %.3f of %d end stops, want nearly all", share, all)
	}
}

func TestTheSameTakeHasTheSameTruthAtAnyRate(t *testing.T) {
	take := Take{Shutter: Draw(3, Reflex), Settings: Fire(Modern()[:4], 2)}
	a := mustClip(t, Recording{Seed: 3, Take: take, Phone: Phone{Rate: 8000}})
	b := mustClip(t, Recording{Seed: 3, Take: take, Phone: Phone{Rate: 192000}})
	for i := range a.Truth.Firings {
		if d := math.Abs(a.Truth.Firings[i].Open.Start - b.Truth.Firings[i].Open.Start); d > 1e-12 {
			t.Errorf("firing %d opens %g s apart", i, d)
		}
	}
}

func TestAFastRecorderClockLengthensEverything(t *testing.T) {
	take := Take{Shutter: bareShutter(4), Settings: Fire(Modern()[:2], 2)}
	right := mustClip(t, Recording{Seed: 4, Take: take})
	fast := mustClip(t, Recording{Seed: 4, Take: take, Phone: Phone{ClockPPM: 500}})
	x := fast.Samples()[0]
	for i, f := range fast.Truth.Firings {
		want := right.Truth.Firings[i].Duration() * 1.0005
		if math.Abs(f.Duration()-want) > 1e-9 {
			t.Errorf("firing %d lasts %.9f s by the fast clock, want %.9f", i, f.Duration(), want)
		}
		if late := (firstSound(x, f.Open.Start-0.2, 48000) - f.Open.Start) * 48000; late < -1e-6 || late > 2 {
			t.Errorf("firing %d: first sound %.2f samples after the truth", i, late)
		}
	}
}

func TestTicksComeAtTheStatedPeriod(t *testing.T) {
	for _, k := range []Clock{{Every: 1, Level: -10}, {Every: 0.5, Level: 0, Alike: true}, {Every: 1, Jitter: 0.3e-3}} {
		c := mustClip(t, Recording{Seed: 9, Take: Take{Length: 8, Clock: &k}})
		x := c.Samples()[0]
		if want := int(8 / k.Every); len(c.Truth.Sounds) < want-1 || len(c.Truth.Sounds) > want+1 {
			t.Fatalf("%d ticks in 8 s, one every %g s", len(c.Truth.Sounds), k.Every)
		}
		previous := math.NaN()
		for i, s := range c.Truth.Sounds[1:] {
			got := firstSound(x, s.Start-k.Every/4, 48000)
			if math.Abs(got-s.Start) > 2.0/48000 {
				t.Errorf("tick %d heard at %.6f s, truth %.6f", i, got, s.Start)
			}
			if off := got - previous - k.Every; math.Abs(off) > 6*k.Jitter+2.0/48000 {
				t.Errorf("tick %d comes %.6f s late, jitter %g s", i, off, k.Jitter)
			}
			previous = got
		}
	}
}
