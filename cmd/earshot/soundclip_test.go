package main

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"earshot/dsp"
	"earshot/dsp/synth"
	"earshot/dsp/wavfile"
)

// between draws evenly.
func between(d *rand.Rand, low, high float64) float64 { return low + (high-low)*d.Float64() }

// wellRecorded is a recording without a fault as they come: any shutter, room, noise and
// winding, one microphone or two, with and without other sounds or a clock.
func wellRecorded(seed uint64) (synth.Recording, *rand.Rand) {
	d := rand.New(rand.NewPCG(seed, 77))
	s := synth.Draw(seed, []synth.Kind{synth.Leaf, synth.Leaf, synth.Reflex}[d.IntN(3)])
	r := synth.Recording{
		Seed:  seed,
		Take:  synth.Take{Shutter: s, Settings: synth.Fire(synth.Modern()[d.IntN(2):4+d.IntN(2)], 2)},
		Noise: synth.Noise{Colour: []synth.Colour{synth.White, synth.Pink, synth.RoomNoise}[d.IntN(3)], ClickOver: between(d, 24, 40)},
		Phone: synth.Phone{Rate: []int{44100, 48000, 48000, 96000}[d.IntN(4)], Bits: 16, Level: between(d, -34, -28)},
	}
	if d.IntN(3) > 0 {
		r.Room = &synth.Room{RT60: between(d, 0.2, 0.5)}
	}
	if d.IntN(3) == 0 {
		r.Phone.Mics = []synth.Mic{{Hiss: -75}, {Hiss: -75, Gain: between(d, -9, 3), Delay: between(d, 0, 0.0003)}}
	}
	switch d.IntN(4) {
	case 0:
		kinds := []synth.Noisemaker{synth.Speech, synth.Typing, synth.Handling, synth.Music}
		r.Take.Distractors = []synth.Distractor{{Kind: kinds[d.IntN(len(kinds))], Level: -6, Share: 0.4}}
	case 1:
		r.Take.Clock = &synth.Clock{Every: 1, Jitter: 0.2e-3, Level: -20}
	}
	return r, d
}

// recordClip writes a recording as a clip and returns its path.
func recordClip(t *testing.T, r synth.Recording, cut float64) string {
	t.Helper()
	c, err := r.Clip()
	if err != nil {
		t.Fatal(err)
	}
	var src dsp.Source = c
	if cut > 0 {
		src = cutOff(c, cut)
	}
	path := filepath.Join(t.TempDir(), "clip.wav")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := wavfile.Copy(f, src); err != nil {
		t.Fatal(err)
	}
	return path
}
