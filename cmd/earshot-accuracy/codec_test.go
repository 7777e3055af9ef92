package main

import (
	"fmt"
	"math"
	"os/exec"
	"testing"

	"earshot/dsp"
	"earshot/dsp/synth"
	"earshot/shutter"
)

// Times after coding are held against those before, so the delay of a codec must be
// gone: the clip that comes back is most like the one that went in where it was.
func TestCodingLeavesAClipWhereItWas(t *testing.T) {
	if !hasFFmpeg() {
		missing(t, ffmpegName, exec.ErrNotFound)
	}
	for _, rate := range []int{44100, 48000} {
		if testing.Short() && rate != 48000 {
			continue
		}
		r := synth.Recording{Seed: 9, Phone: synth.Phone{Rate: rate, Bits: 16}}
		r.Noise = synth.Noise{Colour: synth.White, ClickOver: 3}
		r.Take.Length = 3
		for i, c := range codecs() {
			if testing.Short() && i%3 > 0 {
				continue
			}
			t.Run(fmt.Sprintf("%s of %d Hz", c, rate), func(t *testing.T) {
				clip, err := r.Clip()
				if err != nil {
					t.Fatal(err)
				}
				back, err := (&coding{codec: c}).pass(clip)
				if err != nil {
					t.Fatal(err)
				}
				lag := lagOf(t, clip, back)
				t.Logf("to %d Hz, %+.3f ms later", back.Format().Rate, 1e3*lag)
				if math.Abs(lag) > 0.05e-3 {
					t.Errorf("from %d to %d Hz: %+.3f ms later, want within 0.05", rate, back.Format().Rate, 1e3*lag)
				}
			})
		}
	}
}

// lagOf is by how much later, s, b is most like a: the greatest of their
// cross-correlation within 60 ms, over a tenth of a second of them, to 0.02 ms.
func lagOf(t *testing.T, a, b dsp.Source) float64 {
	t.Helper()
	const from, length, step = 1.0, 0.1, 0.02e-3
	x, y := samplesOf(t, a), samplesOf(t, b)
	ra, rb := float64(a.Format().Rate), float64(b.Format().Rate)
	most, at := math.Inf(-1), 0.0
	for lag := -0.06; lag < 0.06; lag += step {
		sum := 0.0
		for i := int(from * ra); i < int((from+length)*ra); i++ {
			sum += x[i] * y[int(math.Round((float64(i)/ra+lag)*rb))]
		}
		if sum > most {
			most, at = sum, lag
		}
	}
	return at
}

// samplesOf are the first 3 s.
func samplesOf(t *testing.T, src dsp.Source) []float64 {
	t.Helper()
	x := make([]float64, 3*src.Format().Rate)
	if n, err := src.ReadFramesAt(x, 0); err != nil || n < 2*src.Format().Rate {
		t.Fatalf("%d frames, %v", n, err)
	}
	return x
}

func TestOneLagOfAllOnsetsIsForgivenAfterACodec(t *testing.T) {
	truth := []synth.Firing{fired(1, 1.5), fired(3, 3.5), fired(5, 5.5)}
	o := &outcome{truth: synth.Truth{Firings: truth}}
	for _, f := range truth {
		o.found = append(o.found, heardAt(f.Open.Start-0.006, f.Close.Start-0.006, shutter.EdgeStart))
	}
	o.found = append(o.found, shutter.Firing{Open: 8, Edge: shutter.EdgeStart})
	o.forgiveLag()
	if math.Abs(o.lag+0.006) > 1e-9 {
		t.Errorf("lag %.6f s, want -0.006", o.lag)
	}
	if _, n := score(truth, o.found, 0.001); n != (count{3, 4, 3}) {
		t.Errorf("score = %+v, want all three right and one false", n)
	}
	if o.found[3].Close != 0 {
		t.Errorf("a closing not heard was moved to %g s", o.found[3].Close)
	}
}

// A closing that is heard later than its opening is no lag of all, and stays an error.
func TestALagOfClosingsAloneIsNotForgiven(t *testing.T) {
	o := &outcome{truth: synth.Truth{Firings: []synth.Firing{fired(1, 1.5), fired(3, 3.5)}}}
	o.found = []shutter.Firing{heardAt(1, 1.504, shutter.EdgeStart), heardAt(3, 3.504, shutter.EdgeStart)}
	o.forgiveLag()
	for _, f := range o.found {
		if math.Abs(f.Duration()-0.504) > 1e-9 {
			t.Errorf("a duration of 504 ms became %.3f ms", 1e3*f.Duration())
		}
	}
}
