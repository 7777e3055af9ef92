package main

import (
	"math"
	"testing"

	"earshot/dsp/synth"
	"earshot/shutter"
)

// perfect is a plain recording heard without any error.
func perfect(t *testing.T) *outcome {
	t.Helper()
	o := &outcome{recording: scene{Recording: plain(3, 0)}}
	_, truth, err := o.recording.Clip()
	if err != nil {
		t.Fatal(err)
	}
	o.truth = truth
	for _, f := range o.truth.Firings {
		o.found = append(o.found, heardAt(f.Open.Start, f.Close.Start, shutter.EdgeStart))
	}
	o.of, _ = score(o.truth.Firings, o.found, window)
	return o
}

func TestMeansOfPerfectTimesAreThoseFired(t *testing.T) {
	o := perfect(t)
	means := o.means()
	if len(means) != 6 {
		t.Fatalf("%d means, want one for each of the 6 speeds", len(means))
	}
	for _, m := range means {
		if math.Abs(m.fired) > 1e-9 {
			t.Errorf("%s: the mean is off those fired by %g stop, want 0", m.label, m.fired)
		}
		if m.drawn == 0 || math.Abs(m.drawn) > 5*o.recording.Take.Shutter.Scatter {
			t.Errorf("%s: the mean is off the shutter's own by %g stop, want chance of a scatter of %g", m.label, m.drawn, o.recording.Take.Shutter.Scatter)
		}
		if m.onset <= 0 || m.u95 <= m.onset {
			t.Errorf("%s: onset term %g, U95 %g, want the first above 0 and below the second", m.label, m.onset, m.u95)
		}
	}
}

// A shutter timed 10 ms long throughout is off by log2(1 + 10 ms/duration).
func TestMeansShowAnErrorOfTheTimes(t *testing.T) {
	o := perfect(t)
	for i := range o.found {
		o.found[i].Close += 0.010
	}
	o.of, _ = score(o.truth.Firings, o.found, 0.02)
	for _, m := range o.means() {
		if m.label != "1/30" {
			continue
		}
		f := o.truth.Firings[15]
		if want := math.Log2(1 + 0.010/f.Duration()); math.Abs(m.fired-want) > 0.01 {
			t.Errorf("1/30 is off by %.3f stop, want about %.3f", m.fired, want)
		}
		return
	}
	t.Error("no mean for 1/30")
}

func TestLayingIsHeldAgainstTheTrueSettings(t *testing.T) {
	o := perfect(t)
	if got := o.lay(true); got != (laid{firings: 18}) {
		t.Errorf("lay = %+v, want 18 firings, none astray or in doubt", got)
	}
	o.truth.Settings = []synth.Setting{{Label: "1/250", Nominal: 1.0 / 256, Count: 18}}
	if got := o.lay(true); got.astray+got.doubtful != 18 {
		t.Errorf("lay = %+v, told a wrong speed: want all 18 astray or in doubt", got)
	}
}
