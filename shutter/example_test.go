package shutter_test

import (
	"context"
	"fmt"

	"earshot/dsp/synth"
	"earshot/shutter"
	"earshot/shutter/assign"
	"earshot/shutter/hear"
	"earshot/shutter/judge"
)

// A clip from samples to verdict. The samples are those of an invented lens, fired three
// times at each of four speeds, in a quiet room.
func Example() {
	clip, err := synth.Recording{
		Take:  synth.Take{Shutter: synth.Draw(7, synth.Leaf), Settings: synth.Fire(synth.Modern()[:4], 3)},
		Noise: synth.Noise{Colour: synth.RoomNoise, ClickOver: 35},
	}.Clip()
	if err != nil {
		fmt.Println(err)
		return
	}
	told, err := shutter.ParseSteps("1x3 1/2x3 1/4x3 1/8x3")
	if err != nil {
		fmt.Println(err)
		return
	}
	heard, err := hear.Clip(context.Background(), clip, hear.Options{Kind: shutter.Leaf})
	if err != nil {
		fmt.Println(err)
		return
	}
	check := judge.Judge(heard.Firings, assign.Lay(heard.Firings, told), judge.Standard())
	for _, s := range check.Speeds {
		fmt.Printf("%s: %s, %s: %v\n", s.Mark.Label, shutter.TimeText(s.Summary.Duration), shutter.DeviationText(s.Summary.Deviation), s.Verdict)
	}
	fmt.Println("the shutter:", check.Verdict)
	// Output:
	// 1: 969 ms, on the mark: good
	// 1/2: 507 ms, on the mark: good
	// 1/4: 247 ms, on the mark: good
	// 1/8: 116 ms, 0.1 stop fast (less light): good
	// the shutter: good
}
