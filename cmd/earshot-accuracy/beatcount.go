package main

import (
	"math"
	"slices"

	"earshot/dsp/synth"
	"earshot/shutter"
)

// beatcount is how well beats were counted, and stalls found, in firings with a buzz.
type beatcount struct {
	buzzing, counted int       // firings of 0.1 s or more
	rates            []float64 // relative errors of the beat rate, early and late
	stalls, found    int       // firings that stall, and in which a falter was found
}

// add compares what was heard of the buzz with what was made of it.
func (b *beatcount) add(s *synth.Shutter, truth []synth.Firing, found []shutter.Firing) {
	of, _ := score(truth, found, window)
	for t, f := range of {
		made := truth[t]
		if f < 0 || made.BeatRate == 0 || made.Duration() < 0.1 {
			continue
		}
		b.buzzing++
		heard := found[f].Buzz
		if heard.Rate > 0 {
			b.counted++
		}
		switch {
		case slices.Contains(made.Symptoms, synth.Hesitates):
			b.stalls++
			if len(heard.Falters) > 0 {
				b.found++
			}
		case heard.Early > 0:
			b.rates = append(b.rates, rateError(s, made, heard.Early, 0.08), rateError(s, made, heard.Late, made.Duration()-0.07))
		}
	}
}

// rateError is the relative error of a rate, given so many s after the opening. The true rate
// falls exponentially, by the shutter's run-down in 1 s.
func rateError(s *synth.Shutter, made synth.Firing, rate, after float64) float64 {
	run := made.Duration()
	return rate/(made.BeatRate*math.Pow(1-s.RunDown*min(1, run), after/run)) - 1
}

func (b *beatcount) merge(c beatcount) {
	b.buzzing, b.counted, b.stalls, b.found = b.buzzing+c.buzzing, b.counted+c.counted, b.stalls+c.stalls, b.found+c.found
	b.rates = append(b.rates, c.rates...)
}
