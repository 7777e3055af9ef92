package quality_test

import (
	"testing"

	"earshot/dsp"
	"earshot/dsp/quality"
	"earshot/dsp/synth"
)

// BenchmarkMeasure is what measuring adds to hearing a clip of ten minutes.
func BenchmarkMeasure(b *testing.B) {
	one, err := synth.Recording{Seed: 3, Take: synth.Take{Shutter: synth.Draw(3, synth.Leaf), Settings: synth.Fire(synth.Modern()[:6], 3)},
		Noise: synth.Noise{Colour: synth.RoomNoise, ClickOver: 30}, Phone: synth.Phone{Rate: 48000, Bits: 16}}.Clip()
	if err != nil {
		b.Fatal(err)
	}
	src := synth.Loop(one.Format(), one.Samples()[0], 600*48000)
	h, err := dsp.Listen(src)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := quality.Measure(h, src); err != nil {
			b.Fatal(err)
		}
	}
}
