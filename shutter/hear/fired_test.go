package hear_test

import (
	"cmp"
	"slices"
	"testing"

	"earshot/dsp/synth"
	"earshot/shutter"
)

// shares is what hearing attains over the seeds together.
type shares struct {
	recall    float64 // of the firings made, those heard with both ends within 5 ms
	precision float64 // of the firings heard, those made
	timed     float64 // of those, durations within 0.1 ms
	clips     float64 // of the clips, those with no firing missed, invented, or 0.3 ms off
}

// asked is what hearing is to attain in every case. At six firings a clip a hundredth
// of them wrong spoils no more than one clip in twelve.
var asked = shares{recall: 0.99, precision: 0.99, timed: 0.95, clips: 0.91}

// falls tells whether s falls short of a limit in anything.
func (s shares) falls(limit shares) bool {
	return s.recall < limit.recall || s.precision < limit.precision || s.timed < limit.timed || s.clips < limit.clips
}

// fired is a case of hearing: what is recorded for a seed.
type fired struct {
	name   string
	record func(seed uint64) synth.Recording
	kind   shutter.Kind              // what hearing is told; "": leaf
	only   func(synth.Truth) bool    // whether a seed's recording is of this case; nil: every one is
	cut    func(synth.Truth) float64 // where the clip ends, s; nil: where the recording does
	now    *shares                   // what it attains so far, where that falls short of what is asked
}

// heard listens to the case's recordings and logs what is wrong in each.
func (c fired) heard(t *testing.T) shares {
	var sum comparison
	clips, right := 0, 0
	for seed := range seeds {
		r := c.record(seed)
		if c.only != nil && !c.only(planned(t, r)) {
			continue
		}
		src, truth := played16(t, r)
		if c.cut != nil {
			src.frames = src.frames[:int(48000*c.cut(truth))]
		}
		got := compared(hearKind(t, src, 0, cmp.Or(c.kind, shutter.Leaf)).Firings, truth.Firings)
		clips++
		if len(got.mistakes) == 0 {
			right++
		}
		for _, m := range got.mistakes {
			t.Logf("seed %d: %s", seed, m)
		}
		sum.made, sum.heard, sum.found = sum.made+got.made, sum.heard+got.heard, sum.found+got.found
		sum.closed, sum.close = sum.closed+got.closed, sum.close+got.close
	}
	if clips < 3 {
		t.Fatalf("%d clips are of this case, too few to tell", clips)
	}
	t.Logf("%d of %d clips right; %d firings, %d heard, %d found, %d of %d timed within 0.1 ms", right, clips, sum.made, sum.heard, sum.found, sum.close, sum.closed)
	share := func(n, of int) float64 { return float64(n) / float64(max(1, of)) }
	return shares{share(sum.found, sum.made), share(sum.found, sum.heard), share(sum.close, sum.closed), share(right, clips)}
}

// inRoom records takes 35 dB over a quiet room's noise.
func inRoom(take func(seed uint64) synth.Take) func(uint64) synth.Recording {
	return func(seed uint64) synth.Recording {
		return synth.Recording{Seed: seed, Take: take(seed), Noise: synth.Noise{Colour: synth.RoomNoise, ClickOver: 35}}
	}
}

// fire fires a leaf shutter, changed as told, through the settings.
func fire(settings []synth.Setting, change func(*synth.Shutter)) func(uint64) synth.Take {
	return func(seed uint64) synth.Take {
		s := leaf(seed)
		if change != nil {
			change(s)
		}
		return take(s, settings)
	}
}

// faulty gives a shutter one fault.
func faulty(f synth.Fault) func(*synth.Shutter) {
	return func(s *synth.Shutter) { s.Faults = []synth.Fault{f} }
}

// freed tells whether blades that hung were heard to close as they were freed by hand.
func freed(truth synth.Truth) bool {
	return slices.ContainsFunc(truth.Sounds, func(s synth.Sound) bool { return s.Kind == "freed by hand" })
}

func TestFiringsAreFoundAndTimed(t *testing.T) {
	half := func(count int) []synth.Setting { return slow(count)[:1] }
	buzzing := func(s *synth.Shutter) { s.BeatRate = max(s.BeatRate, 150) }
	hanging := fire([]synth.Setting{{Label: "1/2", Nominal: 0.5, Count: 2}, {Label: "1/8", Nominal: 0.125, Count: 4}},
		faulty(synth.Fault{Symptom: synth.HangsOpen, Grade: 4, Share: 0.25, Marks: []string{"1/8"}}))
	hangingLast := fire([]synth.Setting{{Label: "1/8", Nominal: 0.125, Count: 4}, {Label: "1/4", Nominal: 0.25, Count: 1}},
		faulty(synth.Fault{Symptom: synth.HangsOpen, Grade: 4, Share: 1, Marks: []string{"1/4"}}))
	tests := []fired{
		{name: "firings wound by a ratchet in between", now: &shares{0.99, 0.99, 0.916, 0.91}, record: inRoom(fire(slow(2), nil))},
		{name: "and in noise 18 dB under the clicks", record: func(seed uint64) synth.Recording {
			r := inRoom(fire(slow(2), nil))(seed)
			r.Noise.ClickOver = 18
			return r
		}},
		{name: "firings wound by single strokes louder than the shutter", record: inRoom(fire(slow(2), func(s *synth.Shutter) {
			s.Winding, s.Loud = synth.StrokeWinding, 6
		}))},
		{name: "blades that start softly", now: &shares{0.99, 0.99, 0.833, 0.91}, record: inRoom(fire(slow(2), func(s *synth.Shutter) { s.Soft = true }))},
		{name: "a shutter that never buzzes", now: &shares{0.99, 0.986, 0.95, 0.91}, record: inRoom(fire(slow(2), func(s *synth.Shutter) { s.BeatRate = 0 }))},
		{name: "firings too fast for two sounds after slower ones", now: &shares{0.95, 0.98, 0.95, 0.83}, record: inRoom(fire([]synth.Setting{
			{Label: "1/8", Nominal: 0.125, Count: 3}, {Label: "1/125", Nominal: 1.0 / 128, Count: 2}, {Label: "1/250", Nominal: 1.0 / 256, Count: 2}}, nil))},
		{name: "nothing but fast firings", now: &shares{0.94, 0.98, 0.95, 0.75}, record: inRoom(fire([]synth.Setting{
			{Label: "1/60", Nominal: 1.0 / 64, Count: 3}, {Label: "1/125", Nominal: 1.0 / 128, Count: 3}, {Label: "1/250", Nominal: 1.0 / 256, Count: 2}}, nil))},
		{name: "firings between knocks", now: &shares{0.99, 0.986, 0.95, 0.91}, record: inRoom(func(seed uint64) synth.Take {
			take := fire(slow(2), nil)(seed)
			take.Distractors = []synth.Distractor{{Kind: synth.Knock}}
			return take
		})},
		{name: "a single firing with a buzz", now: &shares{0.99, 0.99, 0.916, 0.91}, record: inRoom(fire(half(1), buzzing))},
		{name: "two firings with a buzz", record: inRoom(fire(half(2), buzzing))},
		{name: "a single firing at 1/8", now: &shares{0.99, 0.99, 0.916, 0.91}, record: inRoom(fire([]synth.Setting{{Label: "1/8", Nominal: 0.125, Count: 1}}, nil))},
		{name: "two firings at 1/8", record: inRoom(fire([]synth.Setting{{Label: "1/8", Nominal: 0.125, Count: 2}}, nil))},
		{name: "firings of which some close early", now: &shares{0.833, 0.99, 0.95, 0.83}, record: inRoom(fire(slow(3)[:2],
			faulty(synth.Fault{Symptom: synth.ClosesEarly, Grade: 1.5, Share: 0.3})))},
		{name: "blades that hang and are never heard to close", record: inRoom(hanging), only: func(truth synth.Truth) bool { return !freed(truth) }},
		{name: "blades that hang until they are freed by hand", record: inRoom(hanging), only: freed},
		{name: "blades that hang until the clip ends", record: inRoom(hangingLast),
			cut: func(truth synth.Truth) float64 { return truth.Firings[4].Open.Start + 4 }},
		{name: "a leaf shutter in a reflex body", record: inRoom(func(seed uint64) synth.Take {
			return take(synth.Draw(seed, synth.Reflex), slow(2))
		})},
		{name: "a focal-plane shutter, told so", kind: shutter.FocalPlane, record: inRoom(curtains)},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			got, limit := tt.heard(t), asked
			if tt.now != nil {
				limit = *tt.now
				t.Logf("%+.3v is asked, and %+.3v so far", asked, limit)
			}
			if got.falls(limit) {
				t.Errorf("%+.3v, want at least %+.3v", got, limit)
			}
		})
	}
}
