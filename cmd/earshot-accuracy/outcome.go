package main

import (
	"context"
	"fmt"
	"math"

	"earshot/dsp"
	"earshot/dsp/synth"
	"earshot/shutter"
	"earshot/shutter/hear"
)

// window is how far, s, both onsets of a firing found may lie from the true ones for
// it to be that firing; windows are those at which F is stated as well.
const window = 0.005

func windows() []float64 { return []float64{0.001, 0.002, window} }

// outcome is what was heard in one clip, and what there was.
type outcome struct {
	condition condition
	clip      int
	recording scene
	truth     synth.Truth
	found     []shutter.Firing
	lag       float64 // s that all onsets heard come late after a codec, which is forgiven
	of        []int   // the index in found of each true firing; −1: missed
	counts    []count
	beside    map[string]standing // by the name of the method
	fine      *fineness           // nil: not measured, or too few firings found
}

// hearAll plays and hears every clip, on all processors. The outcomes are in the
// order of the conditions, whatever the order of work.
func hearAll(all []condition, seed uint64) ([]*outcome, error) {
	var outcomes []*outcome
	for _, c := range all {
		for clip := range c.clips {
			outcomes = append(outcomes, &outcome{condition: c, clip: clip, recording: c.recording(seed, clip)})
		}
	}
	return outcomes, each(outcomes, (*outcome).hear)
}

// each does something at every outcome, on all processors, and returns the first
// error in their order.
func each(outcomes []*outcome, do func(o *outcome) error) error {
	return inParallel(len(outcomes), func(i int) error {
		if err := do(outcomes[i]); err != nil {
			return fmt.Errorf("%s, clip %d: %w", outcomes[i].condition.name, outcomes[i].clip, err)
		}
		return nil
	})
}

func (o *outcome) hear() error {
	clip, truth, err := o.recording.Clip()
	if err != nil {
		return err
	}
	o.truth = truth
	var h *dsp.Hearing
	if h, o.found, err = detect(clip, o.recording.kind); err != nil {
		return err
	}
	if o.recording.via != nil {
		o.forgiveLag()
	}
	for _, w := range windows() {
		of, n := score(o.truth.Firings, o.found, w)
		o.counts = append(o.counts, n)
		if w == window {
			o.of = of
		}
	}
	if isNoise(o.condition) {
		return o.measureFineness(h)
	}
	return nil
}

// forgiveLag moves the firings found by the median lag of their onsets. A codec spreads a click
// over the time before it, so that all onsets are heard early. A shift that is the same for all
// changes no duration.
func (o *outcome) forgiveLag() {
	if len(o.found) == 0 {
		return
	}
	o.lag = medianLag(o.truth.Firings, heardOnsets(o.found), o.found[0].Edge)
	for i := range o.found {
		o.found[i].Open -= o.lag
		if o.found[i].Closed {
			o.found[i].Close -= o.lag
		}
	}
}

// detect finds the firings of a clip, told nothing but the sound and the kind of
// shutter, as every command does, with all that it heard.
func detect(src dsp.Source, kind shutter.Kind) (*dsp.Hearing, []shutter.Firing, error) {
	heard, err := hear.Clip(context.Background(), src, hear.Options{Kind: kind})
	return heard.Hearing, heard.Firings, err
}

// score pairs the firings found with the true ones.
func score(truth []synth.Firing, found []shutter.Firing, window float64) ([]int, count) {
	of := match(len(truth), len(found), func(t, f int) bool { return agrees(truth[t], found[f], window) })
	return of, countPaired(of, len(found))
}

// agrees tells whether both onsets found lie within a window, s, of the true ones.
func agrees(t synth.Firing, f shutter.Firing, window float64) bool {
	open, close := onsets(t, f.Edge)
	if math.Abs(f.Open-open) > window || f.Closed != t.Closes {
		return false
	}
	return !f.Closed || math.Abs(f.Close-close) <= window
}

// onsets are the true times of the edge that a firing was timed by.
func onsets(t synth.Firing, e shutter.Edge) (open, close float64) {
	if e == shutter.EdgeStop {
		return t.Open.Stop, t.Close.Stop
	}
	return t.Open.Start, t.Close.Start
}

// duration is the true duration between the edges that a firing was timed by.
func duration(t synth.Firing, e shutter.Edge) float64 {
	if e == shutter.EdgeStop {
		return t.StopToStop()
	}
	return t.Duration()
}

// timing is how well one firing was timed.
type timing struct {
	firing int     // index of the true one
	error  float64 // of its duration, s
	u      float64 // stated standard uncertainty of that, s
	true   float64 // duration, s
}

// timings are those of the firings found that closed and that detection thinks fit
// to be timed.
func (o *outcome) timings() []timing {
	var all []timing
	for i, f := range o.of {
		if f < 0 || !o.found[f].Closed || o.found[f].Unfit != "" {
			continue
		}
		t := duration(o.truth.Firings[i], o.found[f].Edge)
		all = append(all, timing{i, o.found[f].Duration() - t, o.found[f].U, t})
	}
	return all
}
