package hear_test

import (
	"testing"

	"earshot/dsp"
	"earshot/dsp/synth"
)

func TestNoFiringIsHeardWhereNoneWas(t *testing.T) {
	const length = 10 // s
	alone := func(kind synth.Noisemaker, every float64) func(uint64) synth.Take {
		return func(seed uint64) synth.Take {
			return synth.Take{Shutter: leaf(seed), Length: length, Distractors: []synth.Distractor{{Kind: kind, Every: every}}}
		}
	}
	still := func(uint64) synth.Take { return synth.Take{Length: length} }
	clock := func(every, level, length float64) func(uint64) synth.Take {
		return func(uint64) synth.Take {
			return synth.Take{Length: length, Clock: &synth.Clock{Every: every, Jitter: 0.0005, Level: level}}
		}
	}
	const all = 1
	tests := []struct {
		name   string
		take   func(seed uint64) synth.Take
		colour synth.Colour
		want   float64 // share of the clips in which none is heard: all is asked, less is what it attains so far
	}{
		{"in a room's noise", still, synth.RoomNoise, all},
		{"in lone knocks", alone(synth.Knock, 4), synth.RoomNoise, 11.0 / 12},
		{"in knocks one a second", alone(synth.Knock, 1), synth.RoomNoise, all},
		{"in winding by a ratchet alone", alone(synth.Cranking, 3), synth.RoomNoise, all},
		{"in winding by single strokes alone", func(seed uint64) synth.Take {
			take := alone(synth.Cranking, 3)(seed)
			take.Shutter.Winding = synth.StrokeWinding
			return take
		}, synth.RoomNoise, all},
		{"in a clock's ticks, two a second and as loud as a shutter", clock(0.5, 0, length), synth.RoomNoise, all},
		{"in a wall clock's ticks", clock(1, -20, length), synth.RoomNoise, all},
		{"in eight of a wall clock's ticks", clock(1, -20, 8), synth.RoomNoise, all},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			wantRight(t, tt.want, func(seed uint64) []string {
				src, truth := played16(t, synth.Recording{Seed: seed, Take: tt.take(seed), Noise: synth.Noise{Colour: tt.colour, ClickOver: 35}})
				if len(truth.Firings) != 0 {
					t.Fatal("the recording has a firing")
				}
				return compared(heardIn(t, src, 0), nil).mistakes
			})
		})
	}
	t.Run("in digital silence", func(t *testing.T) {
		src := &played{format: dsp.Format{Rate: 48000, Channels: 1}, frames: make([]float64, 48000*length)}
		if got := heardIn(t, src, 0); len(got) != 0 {
			t.Errorf("%d firings heard: %+v", len(got), got)
		}
	})
}
