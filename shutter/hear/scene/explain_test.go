package scene_test

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"earshot/dsp"
	"earshot/dsp/synth"
	"earshot/shutter/hear/scene"
)

// listened is what is heard of a leaf shutter fired three times at four speeds.
func listened(t testing.TB, seed uint64, change func(x []float64) []float64) (scene.Recording, synth.Truth) {
	t.Helper()
	s := synth.Draw(seed, synth.Leaf)
	s.Soft, s.Uneven = false, 0
	r := synth.Recording{Seed: seed, Take: synth.Take{Shutter: s, Settings: synth.Fire(synth.Modern()[:4], 3)},
		Noise: synth.Noise{Colour: synth.RoomNoise, ClickOver: 35}, Phone: synth.Phone{Rate: 48000, Bits: 16}}
	src, err := r.Clip()
	if err != nil {
		t.Fatal(err)
	}
	var x []float64
	block := make([]float64, 4096)
	for {
		n, err := src.ReadFrames(block)
		x = append(x, block[:n]...)
		if err != nil {
			break
		}
	}
	h, err := dsp.Listen(&dsp.Held{Layout: src.Format(), Frames: change(x)})
	if err != nil {
		t.Fatal(err)
	}
	return told(h), src.Truth
}

func told(h *dsp.Hearing) scene.Recording {
	r := scene.Recording{Levels: &h.Levels, Step: h.Seconds(float64(h.Levels.Step))}
	for i := range h.Transients {
		if x := &h.Transients[i]; x.Spectrum != nil {
			r.Spectra = append(r.Spectra, scene.Spectral{At: h.Seconds(x.Onset), Level: x.Level, Spectrum: x.Spectrum})
		}
	}
	return r
}

func asItIs(x []float64) []float64 { return x }

func TestFiringsAreExplained(t *testing.T) {
	const near = 0.008 // s: a stroke and what a level lasts
	made, right, taken := 0, 0, 0
	for seed := uint64(1); seed <= 4; seed++ {
		r, truth := listened(t, seed, asItIs)
		x := scene.Explain(t.Context(), r)
		made, taken = made+len(truth.Firings), taken+len(x.Firings)
		for _, f := range x.Firings {
			for _, want := range truth.Firings {
				if math.Abs(x.Sounds[f.Open].At-want.Open.Start) < near && math.Abs(x.Sounds[f.Close].At-want.Close.Start) < near {
					right++
				}
			}
		}
	}
	if right < made*9/10 || taken > right {
		t.Errorf("of %d firings %d are explained, and %d others", made, right, taken-right)
	}
}

// What is not of the shutter changes nothing of what the sounds are taken for.
func TestLoudnessPolarityAndSilenceChangeNothing(t *testing.T) {
	plain, _ := listened(t, 2, asItIs)
	want := scene.Explain(t.Context(), plain)
	if len(want.Firings) == 0 {
		t.Fatal("nothing is heard")
	}
	const silence = 48000
	for name, change := range map[string]func(x []float64) []float64{
		"half as loud":      func(x []float64) []float64 { return scaled(x, 0.5) },
		"polarity reversed": func(x []float64) []float64 { return scaled(x, -1) },
		"a second appended": func(x []float64) []float64 { return append(x, hiss(silence, x)...) },
	} {
		r, _ := listened(t, 2, change)
		got := scene.Explain(t.Context(), r)
		if len(got.Firings) != len(want.Firings) {
			t.Errorf("%s: %d firings, want %d", name, len(got.Firings), len(want.Firings))
			continue
		}
		for i := range got.Firings {
			if a, b := got.Sounds[got.Firings[i].Open].At, want.Sounds[want.Firings[i].Open].At; math.Abs(a-b) > 0.001 {
				t.Errorf("%s: firing %d opens at %.4f s, want %.4f", name, i, a, b)
			}
		}
	}
}

func scaled(x []float64, by float64) []float64 {
	y := make([]float64, len(x))
	for i := range x {
		y[i] = by * x[i]
	}
	return y
}

// hiss is noise as loud as the beginning of x, which is a room's.
func hiss(n int, x []float64) []float64 {
	sum := 0.0
	for _, v := range x[:4800] {
		sum += v * v
	}
	r, y := rand.New(rand.NewPCG(1, 2)), make([]float64, n)
	for i := range y {
		y[i] = r.NormFloat64() * math.Sqrt(sum/4800)
	}
	return y
}

func TestNothingIsExplainedOnceTheContextIsDone(t *testing.T) {
	r, _ := listened(t, 1, asItIs)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if x := scene.Explain(ctx, r); len(x.Firings) > 0 {
		t.Errorf("%d firings", len(x.Firings))
	}
}

func TestAnEmptyClipHasNoSounds(t *testing.T) {
	if x := scene.Explain(t.Context(), scene.Recording{Levels: new(dsp.Levels)}); len(x.Sounds)+len(x.Firings) > 0 {
		t.Errorf("%d sounds", len(x.Sounds))
	}
}

func BenchmarkExplain(b *testing.B) {
	r, _ := listened(b, 1, asItIs)
	for b.Loop() {
		scene.Explain(b.Context(), r)
	}
}
