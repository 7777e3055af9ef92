package quality_test

import (
	"fmt"

	"earshot/dsp"
	"earshot/dsp/quality"
	"earshot/dsp/synth"
)

// A shutter recorded by a telephone at 48 kHz, 30 dB over the noise of a room.
func ExampleMeasure() {
	clip, err := synth.Recording{
		Seed:  7,
		Take:  synth.Take{Shutter: synth.Draw(7, synth.Leaf), Settings: synth.Fire(synth.Modern()[:3], 2)},
		Noise: synth.Noise{Colour: synth.RoomNoise, ClickOver: 30},
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
	q, err := quality.Measure(h, clip)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("sounds up to %.0f kHz, muted for %.1f s, %d channel\n", q.Bandwidth/1000, q.Muted.Time, len(q.Channels))
	fmt.Println("clicks stand 20 dB out of the noise:", q.Click-q.Floor > 20)
	// Output:
	// sounds up to 24 kHz, muted for 0.0 s, 1 channel
	// clicks stand 20 dB out of the noise: true
}
