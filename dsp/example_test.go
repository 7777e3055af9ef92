package dsp_test

import (
	"fmt"
	"math"

	"earshot/dsp"
	"earshot/dsp/synth"
)

// What is heard of one firing of a shutter, held to what really happened: where its
// blades began to open and to close.
func ExampleListen() {
	clip, err := synth.Recording{
		Seed:  7,
		Take:  synth.Take{Shutter: synth.Draw(7, synth.Leaf), Settings: synth.Fire(synth.Modern()[:1], 1)},
		Noise: synth.Noise{Colour: synth.RoomNoise, ClickOver: 40},
		Phone: synth.Phone{Rate: 48000, Bits: 16},
	}.Clip()
	if err != nil {
		fmt.Println(err)
		return
	}
	h, err := dsp.Listen(clip)
	if err != nil {
		fmt.Println(err)
		return
	}
	f := clip.Truth.Firings[0]
	for name, at := range map[string]float64{"opening": f.Open.Start, "closing": f.Close.Start} {
		nearest := math.Inf(1)
		for _, t := range h.Transients {
			nearest = min(nearest, math.Abs(h.Seconds(t.Onset)-at))
		}
		fmt.Printf("the %s is heard within a millisecond: %v\n", name, nearest < 1e-3)
	}
	// Unordered output:
	// the opening is heard within a millisecond: true
	// the closing is heard within a millisecond: true
}
