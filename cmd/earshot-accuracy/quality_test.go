package main

import (
	"fmt"
	"math"
	"os/exec"
	"testing"

	"earshot/dsp"
	"earshot/dsp/quality"
	"earshot/dsp/synth"
	"earshot/shutter"
	"earshot/shutter/hear"
)

// Encoders of low rates end what they keep as by a cliff; Opus keeps 20 kHz at any of
// these rates, and so does not show.
func TestACodecThatCutsOffHighFrequenciesShows(t *testing.T) {
	if !hasFFmpeg() {
		missing(t, ffmpegName, exec.ErrNotFound)
	}
	r := synth.Recording{Seed: 11, Phone: synth.Phone{Rate: 48000, Bits: 16}}
	r.Noise = synth.Noise{Colour: synth.RoomNoise, ClickOver: 32}
	r.Take.Shutter, r.Take.Settings = synth.Draw(11, synth.Leaf), synth.Fire(synth.Modern()[2:5], 1)
	const whole = 18000 // Hz
	for _, c := range []struct {
		codec
		cuts bool
	}{
		{codec{"AAC", "aac", ".m4a", 32, 0}, true},
		{codec{"MP3", "libmp3lame", ".mp3", 64, 0}, true},
		{codec{"Opus", "libopus", ".ogg", 24, 0}, false},
		{codec{"Opus", "libopus", ".ogg", 64, 0}, false},
	} {
		t.Run(fmt.Sprint(c.codec), func(t *testing.T) {
			clip, err := r.Clip()
			if err != nil {
				t.Fatal(err)
			}
			back, err := (&coding{codec: c.codec}).pass(clip)
			if err != nil {
				t.Fatal(err)
			}
			h, err := dsp.Listen(back)
			if err != nil {
				t.Fatal(err)
			}
			q, err := quality.Measure(h, back)
			if err != nil {
				t.Fatal(err)
			}
			t.Logf("sounds reach up to %.1f kHz", q.Bandwidth/1000)
			if (q.Bandwidth < whole) != c.cuts {
				t.Errorf("sounds reach up to %.1f kHz", q.Bandwidth/1000)
			}
			if q.Muted != (quality.Muted{}) {
				t.Errorf("%+v, though nothing was lost", q.Muted)
			}
		})
	}
}

// What the bandwidth adds must hold what the codec did to the durations.
func TestTheSmearOfACodecIsWithinTheUncertainty(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes many firings")
	}
	if !hasFFmpeg() {
		missing(t, ffmpegName, exec.ErrNotFound)
	}
	all, held := 0, 0
	for clip := range 3 {
		r := condition{name: "smear", change: func(r *scene, _ int) {
			r.via, r.Noise.ClickOver = &coding{codec: codec{"AAC", "aac", ".m4a", 32, 0}}, 30
		}}.recording(5, clip)
		src, truth, err := r.Clip()
		if err != nil {
			t.Fatal(err)
		}
		heard, err := hear.Clip(t.Context(), src, hear.Options{Kind: shutter.Leaf})
		if err != nil {
			t.Fatal(err)
		}
		q := heard.Quality
		for _, f := range heard.Firings {
			for _, fired := range truth.Firings {
				want := fired.Duration()
				if f.Edge == shutter.EdgeStop {
					want = fired.StopToStop()
				}
				if math.Abs(fired.Open.Start-f.Open) < 0.01 && f.Closed && math.Abs(f.Duration()-want) < 0.01 {
					all++
					if math.Abs(f.Duration()-want) <= 1.96*f.U {
						held++
					}
				}
			}
		}
		t.Logf("clip %d: up to %.1f kHz, smear %.2f ms: %d of %d held", clip, q.Bandwidth/1000, 1000*q.Smear(), held, all)
	}
	if all < 40 || float64(held) < 0.9*float64(all) {
		t.Errorf("%d of %d durations are within 1.96 times their uncertainty, want 90 %%", held, all)
	}
}
