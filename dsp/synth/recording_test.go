package synth

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

func TestWhatCannotBePlayedIsRefusedWithTheReason(t *testing.T) {
	s := bareShutter(1)
	for name, c := range map[string]struct {
		r    Recording
		want string
	}{
		"a rate of 4 kHz":               {Recording{Phone: Phone{Rate: 4000}}, "4000 Hz"},
		"four bits":                     {Recording{Phone: Phone{Bits: 4}}, "4 bits"},
		"settings without a shutter":    {Recording{Take: Take{Settings: Fire(Modern()[:1], 1)}}, "no shutter"},
		"a speed of 0 s":                {Recording{Take: Take{Shutter: s, Settings: []Setting{{"B", 0, 1}}}}, `"B"`},
		"a speed that is no number":     {Recording{Take: Take{Shutter: s, Settings: []Setting{{"B", math.NaN(), 1}}}}, `"B"`},
		"an unknown noisemaker":         {Recording{Take: Take{Distractors: []Distractor{{Kind: "dog"}}}}, `"dog"`},
		"winding without a shutter":     {Recording{Take: Take{Distractors: []Distractor{{Kind: Cranking}}}}, "no shutter"},
		"a noise of no colour known":    {Recording{Noise: Noise{"mauve", 3}}, `"mauve"`},
		"a room that never ends":        {Recording{Room: &Room{RT60: 30}}, "30 s"},
		"losses that overlap":           {Recording{Phone: Phone{Losses: []Loss{{At: 1, Length: 1}, {At: 1.5, Length: 1}}}}, "at 1.5 s"},
		"a clock that ticks at no time": {Recording{Take: Take{Clock: &Clock{}}}, "every 0 s"},
		"a microphone next door":        {Recording{Phone: Phone{Mics: []Mic{{Delay: 1}}}}, "delay 1 s"},
	} {
		if _, err := c.r.Clip(); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want one with %q", name, err, c.want)
		}
	}
}

func TestARecordingOfNothingIsSilent(t *testing.T) {
	c := mustClip(t, Recording{Take: Take{Length: 3}})
	if x := c.Samples()[0]; rms(x) != 0 || len(x) != 3*48000 {
		t.Errorf("%d samples of RMS %g, want 3 s of silence", len(x), rms(x))
	}
}

func TestWindingAloneIsHeardWithoutAFiring(t *testing.T) {
	s := Draw(3, Leaf)
	s.Winding = RatchetWinding
	c := mustClip(t, Recording{Seed: 3, Take: Take{Shutter: s, Length: 30, Distractors: []Distractor{{Kind: Cranking, Every: 3}}}})
	if n := len(c.Truth.sounds("winding")); n < 6 || n > 20 || len(c.Truth.Firings) != 0 {
		t.Errorf("%d windings and %d firings in 30 s", n, len(c.Truth.Firings))
	}
}

func TestTheDemosDrawerHoldsItsLensesAsNoted(t *testing.T) {
	files := map[string]bool{}
	ails := map[Symptom]bool{}
	for _, l := range Demo(1) {
		c := mustClip(t, l.Recording)
		files[l.File] = true
		if d := c.Duration(); d < 20 || d > 60 {
			t.Errorf("%s lasts %.1f s, want 20 to 60", l.File, d)
		}
		if want := Notation(c.Truth.Settings); l.Speeds != want || len(c.Truth.Firings) < 12 {
			t.Errorf("%s: speeds %q, fired %q with %d firings", l.File, l.Speeds, want, len(c.Truth.Firings))
		}
		for _, a := range l.Ails {
			ails[a] = true
			if one := a == HangsOpen || a == ClosesEarly; one && c.Truth.showing(a) == 0 {
				t.Errorf("%s %s, but no firing shows it", l.File, a)
			}
		}
	}
	if len(files) != len(Demo(1)) || len(ails) != 6 {
		t.Errorf("%d files with %d kinds of faults, want %d with 6", len(files), len(ails), len(Demo(1)))
	}
}

func ExampleRecording() {
	clip, err := Recording{
		Seed:  7,
		Take:  Take{Shutter: Draw(7, Leaf), Settings: Fire(Older()[1:3], 2)},
		Room:  &Room{RT60: 0.4},
		Noise: Noise{RoomNoise, 30},
		Phone: Phone{Rate: 44100, Bits: 16},
	}.Clip()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(Notation(clip.Truth.Settings))
	for _, f := range clip.Truth.Firings {
		fmt.Printf("%s opens at %.5f s for %.5f s\n", f.Label, f.Open.Start, f.Duration())
	}
	// Output:
	// 1/2x2 1/5x2
	// 1/2 opens at 1.88107 s for 0.49060 s
	// 1/2 opens at 4.32341 s for 0.49239 s
	// 1/5 opens at 7.38158 s for 0.19393 s
	// 1/5 opens at 9.71890 s for 0.19274 s
}
