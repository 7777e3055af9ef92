package main

import (
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"slices"
	"testing"

	"earshot/cmd/internal/sitting"
	"earshot/dsp/synth"
	"earshot/report"
	"earshot/shutter"
)

// faultClips is how many recordings have each fault; six times as many have none.
var faultClips = flag.Int("faultclips", 1, "recordings with each planted fault, and a sixth of those without")

// planting is a fault of recording, drawn anew for each clip, and the finding that must
// name it.
type planting struct {
	fault, finding string
	plant          func(r *synth.Recording, d *rand.Rand)
	cut            func(d *rand.Rand) float64 // Hz above which a codec leaves nothing; nil: all is left
}

func plantings() []planting {
	phone := func(change func(p *synth.Phone, d *rand.Rand)) func(*synth.Recording, *rand.Rand) {
		return func(r *synth.Recording, d *rand.Rand) { change(&r.Phone, d) }
	}
	return []planting{
		{fault: "too quiet", finding: "level", plant: phone(func(p *synth.Phone, d *rand.Rand) { p.Level = between(d, -66, -54) })},
		{fault: "clipping", finding: "clipping", plant: phone(func(p *synth.Phone, d *rand.Rand) { p.Level = between(d, -5, 2) })},
		{fault: "too noisy", finding: "noise", plant: func(r *synth.Recording, d *rand.Rand) { r.Noise.ClickOver = between(d, 6, 15) }},
		{fault: "cut off as by a codec", finding: "bandwidth", cut: func(d *rand.Rand) float64 { return between(d, 3400, 15500) }},
		{fault: "sampled slowly", finding: "bandwidth", plant: phone(func(p *synth.Phone, d *rand.Rand) { p.Rate = []int{8000, 16000, 32000}[d.IntN(3)] })},
		{fault: "noise gate", finding: "gate", plant: func(r *synth.Recording, d *rand.Rand) {
			r.Noise = synth.Noise{Colour: synth.White, ClickOver: between(d, 32, 40)} // quieter than the gate's threshold
			r.Phone.Gate = &synth.Gate{Threshold: r.Phone.Level - between(d, 8, 16), Hold: between(d, 0.03, 0.1)}
		}},
		{fault: "gain control", finding: "gain", plant: phone(func(p *synth.Phone, d *rand.Rand) {
			p.Level += 6
			p.Auto = &synth.Auto{Target: between(d, -14, -8), Most: between(d, 28, 36), Attack: between(d, 0.001, 0.004), Release: between(d, 0.3, 1)}
		})},
		{fault: "lost samples", finding: "gaps", plant: phone(func(p *synth.Phone, d *rand.Rand) {
			for t, i := between(d, 1, 3), 0; i <= d.IntN(4); t, i = t+between(d, 1, 2), i+1 {
				p.Losses = append(p.Losses, synth.Loss{At: t, Length: between(d, 0.01, 0.06)})
			}
		})},
		{fault: "one side dead", finding: "channels", plant: phone(func(p *synth.Phone, d *rand.Rand) {
			p.Mics = []synth.Mic{{}, {}}
			p.Mics[d.IntN(2)].Dead = true
		})},
		{fault: "opposite phase", finding: "channels", plant: phone(func(p *synth.Phone, d *rand.Rand) {
			p.Mics = []synth.Mic{{}, {Invert: true, Gain: between(d, -6, 6), Delay: between(d, 0, 0.0003)}}
		})},
		{fault: "hum", finding: "hum", plant: func(r *synth.Recording, d *rand.Rand) {
			r.Hum = synth.Hum{Frequency: []float64{50, 60}[d.IntN(2)], Level: between(d, -20, 10)}
		}},
	}
}

// faultsOf are the names of the findings that are faults.
func faultsOf(t *testing.T, path string) ([]string, report.Clip) {
	t.Helper()
	h, err := sitting.Hear(t.Context(), path, 0, shutter.Leaf, io.Discard)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, f := range h.Facts.Sound.Faults() {
		names = append(names, f.Name)
	}
	return names, h.Facts
}

func TestPlantedFaultsOfRecordingAreNamed(t *testing.T) {
	t.Parallel()
	for i, p := range plantings() {
		if testing.Short() && i%3 > 0 {
			continue
		}
		t.Run(p.fault, func(t *testing.T) {
			named := 0
			for i := range *faultClips {
				r, d := wellRecorded(uint64(1000 + i))
				cut := 0.0
				if p.plant != nil {
					p.plant(&r, d)
				}
				if p.cut != nil {
					cut = p.cut(d)
				}
				names, c := faultsOf(t, recordClip(t, r, cut))
				if slices.Contains(names, p.finding) {
					named++
				} else {
					t.Logf("clip %d: %v named, %+v", i, names, told(c.Sound))
				}
			}
			t.Logf("%d of %d named", named, *faultClips)
			if float64(named) < 0.95*float64(*faultClips) {
				t.Errorf("%d of %d were named, want 95 %%", named, *faultClips)
			}
		})
	}
}

func TestNothingIsNamedInSoundRecordings(t *testing.T) {
	t.Parallel()
	clips := 6 * *faultClips
	if testing.Short() {
		clips = 2
	}
	for i := range clips {
		r, _ := wellRecorded(uint64(1 + i))
		if names, c := faultsOf(t, recordClip(t, r, 0)); len(names) > 0 {
			t.Errorf("clip %d: %v named, %+v", i, names, told(c.Sound))
		}
	}
}

// told prints the figures of a clip's sound.
func told(s report.Sound) string {
	number := func(x *float64) string {
		if x == nil {
			return "-"
		}
		return fmt.Sprintf("%.1f", *x)
	}
	return fmt.Sprintf("peak %s click %s floor %s over %s bandwidth %s recovery %.1f hum %v lost %.3f", number(s.Peak), number(s.Click), number(s.Floor), number(s.ClickOver), number(s.Bandwidth), s.Recovery, s.Hum, s.Lost)
}
