package synth

import (
	"fmt"
	"math"
	"sort"
	"testing"
)

func TestClickOverNoiseIsAsStated(t *testing.T) {
	for _, colour := range []Colour{White, Pink, RoomNoise} {
		for _, rate := range []int{16000, 44100} {
			t.Run(fmt.Sprintf("%s noise at %d Hz", colour, rate), func(t *testing.T) {
				r := Recording{Seed: 5, Phone: Phone{Rate: rate},
					Take: Take{Shutter: bareShutter(5), Settings: Fire(Modern()[3:5], 2)}}
				clean := mustClip(t, r)
				x := clean.Samples()[0]
				r.Noise = Noise{colour, 24}
				y := mustClip(t, r).Samples()[0]
				for i := range y {
					y[i] -= x[i]
				}
				click := measuredClick(clean.Truth, above500(x, float64(rate)), float64(rate))
				noise := decibels(rms(above500(y, float64(rate))))
				if math.Abs(click-clean.Truth.Click) > 0.5 {
					t.Errorf("click at %.2f dBFS, truth %.2f", click, clean.Truth.Click)
				}
				if got := click - noise; math.Abs(got-24) > 0.6 {
					t.Errorf("click over noise %.2f dB, want 24 within 0.6", got)
				}
			})
		}
	}
}

// measuredClick is the median over openings and closings of the loudest 2 ms in x,
// which is above 500 Hz, in dBFS.
func measuredClick(truth Truth, x []float64, rate float64) float64 {
	var levels []float64
	for _, f := range truth.Firings {
		for _, s := range []Stroke{f.Open, f.Close} {
			levels = append(levels, slowLoudest(x[int((s.Start-2e-3)*rate):int((s.Stop+12e-3)*rate)], rate))
		}
	}
	sort.Float64s(levels)
	n := len(levels)
	return decibels((levels[(n-1)/2] + levels[n/2]) / 2)
}

func TestNoiseFallsAsItsColourSays(t *testing.T) {
	for colour, slope := range map[Colour]float64{White: 0, Pink: 3, RoomNoise: 5} {
		r := Recording{Seed: 2, Take: Take{Length: 4}, Noise: Noise{colour, 20}}
		x := mustClip(t, r).Samples()[0]
		low, top := bandRMS(x, [2]float64{250, 500}, 48000), bandRMS(x, [2]float64{8000, 16000}, 48000)
		// Five octaves apart, and the upper band is 32 times as wide.
		got := (decibels(low) - decibels(top) + 10*math.Log10(32)) / 5
		if math.Abs(got-slope) > 0.4 {
			t.Errorf("%s noise falls by %.2f dB an octave, want %g", colour, got, slope)
		}
	}
}

func TestTheBuzzLiesUnderTheClickAsTheTruthSays(t *testing.T) {
	for seed := range uint64(8) {
		s := bareShutter(seed)
		if s.BeatRate == 0 {
			continue
		}
		s.BeatRate = 80 // beats far enough apart to be measured singly
		c := mustClip(t, Recording{Seed: seed, Take: Take{Shutter: s, Settings: Fire(Modern()[1:2], 1)}})
		x := above500(c.Samples()[0], 48000)
		for _, f := range c.Truth.Firings {
			mid := (f.Open.Start + f.Close.Start) / 2
			got := decibels(slowLoudest(x[int((mid-0.1)*48000):int((mid+0.1)*48000)], 48000)) - c.Truth.Click
			if math.Abs(got-f.BuzzLevel) > 7 {
				t.Errorf("seed %d: loudest beat at %.1f dB against the click, truth %.1f", seed, got, f.BuzzLevel)
			}
			if f.BuzzLevel > -16 || f.BuzzLevel < -39 {
				t.Errorf("seed %d: buzz at %.1f dB, want 20 to 35 under the click, give or take 4", seed, f.BuzzLevel)
			}
		}
	}
}

func TestHumIsAtItsLevelAndFrequency(t *testing.T) {
	r := Recording{Seed: 1, Take: Take{Length: 4}, Hum: Hum{50, -10}}
	x := mustClip(t, r).Samples()[0]
	if got := decibels(rms(x[:48000*3])); math.Abs(got-(-36)) > 0.05 {
		t.Errorf("hum at %.2f dBFS, want 10 dB under a click at -26", got)
	}
	for i := range 48000 {
		if d := math.Abs(x[i] - x[i+960]); d > 1e-9 {
			t.Fatalf("sample %d differs from that a period of 50 Hz later by %g", i, d)
		}
	}
}

func TestAPartialIsADampedSinusoid(t *testing.T) {
	p := partial{freq: 3321.7, amp: 0.4, phase: 1.1, tau: 2.3e-3}
	x := make([]float64, 700)
	const t0 = 0.37e-3
	p.addTo(x, t0, 44100)
	for i, got := range x {
		s := t0 + float64(i)/44100
		want := 0.4 * math.Exp(-s/2.3e-3) * math.Sin(2*math.Pi*3321.7*s+1.1)
		if math.Abs(got-want) > 1e-12 {
			t.Fatalf("sample %d = %g, want %g", i, got, want)
		}
	}
}

func TestAGrainIsPlacedBetweenSamples(t *testing.T) {
	g := grain{at: 0.01 + 0.37/8000, attack: 0.4e-3, parts: []partial{{700, 0.5, 0.3, 4e-3}, {1900, 0.2, 2, 1e-3}}}
	for _, first := range []int64{0, 85, 100} {
		x := make([]float64, 150)
		(&player{rate: 8000}).add(x, first, &g, 2)
		for i, got := range x {
			s := float64(first+int64(i))/8000 - g.at
			want := 0.0
			if s > 0 {
				want = 2 * (1 - math.Exp(-s/0.4e-3)) * (0.5*math.Exp(-s/4e-3)*math.Sin(2*math.Pi*700*s+0.3) + 0.2*math.Exp(-s/1e-3)*math.Sin(2*math.Pi*1900*s+2))
			}
			if math.Abs(got-want) > 1e-5 {
				t.Fatalf("frame %d = %g, want %g", first+int64(i), got, want)
			}
		}
	}
}
