package synth

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// anyRecording draws a short recording of anything by anything.
func anyRecording(t *rapid.T) Recording {
	seed := rapid.Uint64Range(0, 1<<40).Draw(t, "seed")
	s := Draw(seed, rapid.SampledFrom([]Kind{Leaf, Reflex, FocalPlane}).Draw(t, "kind"))
	if rapid.Bool().Draw(t, "faulty") {
		s.Faults = []Fault{{rapid.SampledFrom([]Symptom{HangsOpen, ClosesEarly, Hesitates, LazyBlades, BouncesOpen, Erratic}).Draw(t, "symptom"), 0.5, 0.5, nil}}
	}
	r := Recording{Seed: seed, Take: Take{Shutter: s, Settings: Fire(Modern()[rapid.IntRange(2, 8).Draw(t, "speed"):][:1], 1), Pause: [2]float64{0.1, 0.2}}}
	r.Take.Distractors = []Distractor{{Kind: rapid.SampledFrom([]Noisemaker{Speech, Music, Knock, Clap, Typing, Handling}).Draw(t, "noisemaker"),
		Level: rapid.Float64Range(-30, 20).Draw(t, "level"), Every: 5}}
	if rapid.Bool().Draw(t, "room") {
		r.Room = &Room{RT60: rapid.Float64Range(0.1, 0.6).Draw(t, "rt60"), Distance: 0.3}
	}
	r.Noise = Noise{rapid.SampledFrom([]Colour{"", White, Pink, RoomNoise}).Draw(t, "noise"), rapid.Float64Range(-5, 50).Draw(t, "over")}
	r.Phone = Phone{Rate: rapid.SampledFrom([]int{8000, 11025}).Draw(t, "rate"), Bits: rapid.SampledFrom([]int{0, 8, 16, 24}).Draw(t, "bits"),
		Level: rapid.Float64Range(-60, 20).Draw(t, "dBFS"), Mics: []Mic{{}, {Gain: 3, Invert: true, Hiss: -50}}}
	if rapid.Bool().Draw(t, "auto") {
		r.Phone.Auto = &Auto{Target: -6, Most: 40, Attack: 1e-3, Release: 0.2}
		r.Phone.Gate = &Gate{Threshold: -40, Hold: 0.05}
	}
	return r
}

func TestWhateverIsRecordedIsWithinFullScaleAndItsTruthInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, err := anyRecording(t).Clip()
		if err != nil {
			t.Fatal(err)
		}
		checkOrder(t, c)
		for ch, x := range c.Samples() {
			if int64(len(x)) != c.Frames() {
				t.Fatalf("%d samples, want %d", len(x), c.Frames())
			}
			for i, v := range x {
				if !(math.Abs(v) <= 1) {
					t.Fatalf("channel %d, sample %d is %g", ch, i, v)
				}
			}
		}
	})
}

// checkOrder holds the truth to the order of time and the length of the clip.
func checkOrder(t *rapid.T, c *Clip) {
	for _, f := range c.Truth.Firings {
		for _, m := range []Stroke{f.Open, f.Close} {
			if (f.Closes || m == f.Open) && !slices.IsSorted([]float64{0, m.Start, m.Stop, c.Duration()}) {
				t.Fatalf("a stroke from %g to %g in a clip of %g s", m.Start, m.Stop, c.Duration())
			}
		}
		if f.Closes && !(f.Duration() > 0) {
			t.Fatalf("open for %g s", f.Duration())
		}
	}
	if !slices.IsSortedFunc(c.Truth.Sounds, func(a, b Sound) int { return cmp.Compare(a.Start, b.Start) }) {
		t.Fatalf("sounds out of order: %v", c.Truth.Sounds)
	}
}

func TestNoGrainSoundsOutsideItsEvent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, err := anyRecording(t).Clip()
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range c.events {
			grains := e.play(newDice(e.seed, 0))
			if len(grains) == 0 {
				continue
			}
			if from, to := span(grains); from < e.start-1e-9 || to > e.end+1e-9 {
				t.Fatalf("grains from %g to %g in an event from %g to %g", from, to, e.start, e.end)
			}
		}
	})
}
