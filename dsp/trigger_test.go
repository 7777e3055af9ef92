package dsp

import (
	"math"
	"testing"

	"earshot/dsp/outside"
)

// obsPy is the seismological library, by its tests and documentation: ObsPy itself is
// not run.
func obsPy() outside.Source {
	return outside.Source{Name: "ObsPy, tests of its trigger and of its AIC picker", Figures: "read in obspy/signal/tests/test_trigger.py"}
}

// Four stretches of a sine over 158 samples each, on above 1.5 and off below 1.0. The
// test there cuts a trigger at 50 samples, which makes three of the one from 131 to
// 315, in which the sine never falls below 1.0; nothing is cut here.
func TestHysteresisFindsThePublishedTriggers(t *testing.T) {
	var c []float64
	for _, offset := range []float64{1, 2.1, 0.4, 1} {
		for i := range 158 {
			c = append(c, math.Sin(float64(i)*0.1)+offset)
		}
	}
	h := hysteresis{on: 1.5, off: 1.0}
	var on, off []int
	for i, v := range c {
		was := h.active
		if h.push(v) {
			on = append(on, i)
		}
		if was && !h.active {
			off = append(off, i-1)
		}
	}
	if h.active {
		off = append(off, len(c)-1)
	}
	outside.Exact(t, obsPy(), "first samples of its triggers, those cut at 50 samples joined", on, []int{6, 69, 131, 480, 543, 605})
	outside.Exact(t, obsPy(), "last samples of its triggers", off, []int{31, 94, 315, 505, 568, 631})
}

func TestTriggerStaysQuietOnASteadySound(t *testing.T) {
	var tr trigger
	tr.start(1)
	for i := range 10000 {
		if tr.push(1 + 0.5*math.Sin(float64(i))) {
			t.Fatalf("triggered at hop %d", i)
		}
	}
}
