package main

import (
	"math"
	"slices"

	"earshot/dsp"
	"earshot/dsp/synth"
	"earshot/shutter"
)

// fineness is how precisely differences between the firings of one clip are measured: standard
// deviations of the errors of durations, s, about the clip's mean error.
type fineness struct {
	over    float64 // click over noise of the clip, dB
	aligned float64 // as this program times them
	single  float64 // the same firings, each onset picked by itself
	clean   float64 // as this program times them where there is no noise
	bound   float64 // Cramér–Rao bound for these sounds in this noise
}

// fewestTold is how many firings of a clip are the fewest whose scatter is stated.
const fewestTold = 6

// cleanOver is the click over noise, dB, at which noise has no effect any more. The pauses are
// still no digital silence, which would count as gaps.
const cleanOver = 90

// isNoise tells whether a condition is the plain recording under noise.
func isNoise(c condition) bool {
	return slices.ContainsFunc(noises(), func(n condition) bool { return n.name == c.name })
}

// measureFineness compares a clip's durations with those from single onsets, of the transients in
// h, and with the best that is possible.
func (o *outcome) measureFineness(h *dsp.Hearing) error {
	timed, aligned := o.timings(), []float64(nil)
	var single, bounds []float64
	clean, heard, err := o.withoutNoise()
	if err != nil {
		return err
	}
	density := o.recording.NoiseDensity()
	for _, x := range timed {
		t, f := o.truth.Firings[x.firing], o.found[o.of[x.firing]]
		open, close, ok := singlePicks(h, t, f.Edge)
		if !ok {
			continue
		}
		aligned = append(aligned, x.error)
		single = append(single, close-open-x.true)
		bounds = append(bounds, durationBound(clean, t, f.Edge, density))
	}
	if len(aligned) < fewestTold {
		return nil
	}
	var still []float64
	for _, x := range heard.timings() {
		still = append(still, x.error)
	}
	o.fine = &fineness{o.recording.Noise.ClickOver, scatter(aligned), scatter(single), scatter(still), rootMeanSquare(bounds)}
	return nil
}

// wave is one channel of a clip.
type wave struct {
	x    []float64
	rate float64
}

// withoutNoise is the sound of the clip without its noise, and what is heard in it.
func (o *outcome) withoutNoise() (wave, *outcome, error) {
	r := o.recording.Recording
	r.Noise.ClickOver, r.Phone.Bits = cleanOver, 0
	clip, err := r.Clip()
	if err != nil {
		return wave{}, nil, err
	}
	x := clip.Samples()[0]
	heard := &outcome{truth: clip.Truth}
	if _, heard.found, err = detect(synth.Loop(clip.Format(), x, int64(len(x))), shutter.Leaf); err != nil {
		return wave{}, nil, err
	}
	heard.of, _ = score(heard.truth.Firings, heard.found, window)
	return wave{x, float64(clip.Format().Rate)}, heard, nil
}

// singlePicks are the onsets, s, of the transients nearest to an edge of a firing's opening and
// closing. ok is false if one of them has no picked onset within window.
func singlePicks(h *dsp.Hearing, t synth.Firing, e shutter.Edge) (open, close float64, ok bool) {
	open, close = onsets(t, e)
	var a, b bool
	open, a = nearestPick(h, open)
	close, b = nearestPick(h, close)
	return open, close, a && b
}

func nearestPick(h *dsp.Hearing, at float64) (onset float64, ok bool) {
	off := window
	for _, t := range h.Transients {
		if t.Spectrum == nil {
			continue // its onset was not picked
		}
		if d := math.Abs(h.Seconds(t.Onset) - at); d <= off {
			onset, off, ok = h.Seconds(t.Onset), d, true
		}
	}
	return onset, ok
}

// durationBound is the bound, s, for a duration, which two sounds bound.
func durationBound(w wave, t synth.Firing, e shutter.Edge, density func(freq float64) float64) float64 {
	bound := func(s synth.Stroke) float64 {
		from, to := s.Start, s.Stop
		if e == shutter.EdgeStop {
			from, to = s.Stop, math.Inf(1)
		}
		return delayBound(soundFrom(w.x, w.rate, from, to), w.rate, density)
	}
	return math.Hypot(bound(t.Open), bound(t.Close))
}

// scatter is the standard deviation (n − 1), 0 for fewer than two.
func scatter(x []float64) float64 {
	if len(x) < 2 {
		return 0
	}
	mean, sum := 0.0, 0.0
	for _, v := range x {
		mean += v / float64(len(x))
	}
	for _, v := range x {
		sum += (v - mean) * (v - mean)
	}
	return math.Sqrt(sum / float64(len(x)-1))
}

func rootMeanSquare(x []float64) float64 { return math.Sqrt(meanPower(x)) }
