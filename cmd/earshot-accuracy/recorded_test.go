package main

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"earshot/dsp"
	"earshot/dsp/synth"
	"earshot/shutter"
)

var needRecordings = flag.Bool("need-recordings", false, "fail, rather than skip, where the recorded sounds or their decoder are missing")

// bench is a recording made of recorded sounds: two different clicks of one camera
// for opening and closing, at intervals chosen here, over recorded noise.
type bench struct {
	sounds *recordedSounds
	over   float64 // click over noise, dB, as in package synth
	wound  bool    // the camera's motor is heard between firings
}

// clip lays out three firings at each of 1, 1/2, 1/4, 1/8 and 1/16 s, every one a
// little off, and returns them with the samples. Intervals are whole samples.
func (b bench) clip(seed uint64) ([]float64, []synth.Firing) {
	const rate = recordedRate
	rnd := rand.New(rand.NewPCG(seed, 2))
	x := make([]float64, 70*rate)
	var truth []synth.Firing
	at := 1.5
	for _, nominal := range []float64{1, 0.5, 0.25, 0.125, 0.0625} {
		for range 3 {
			open := int(at * rate)
			close := open + int(nominal*math.Exp2(0.2*rnd.Float64()-0.1)*rate)
			mix(x, varied(rnd, b.sounds.opening), open, 1)
			mix(x, varied(rnd, b.sounds.closing), close, 1)
			start := synth.Stroke{Start: float64(open) / rate, Stop: float64(open) / rate}
			end := synth.Stroke{Start: float64(close) / rate, Stop: float64(close) / rate}
			truth = append(truth, synth.Firing{Label: fmt.Sprint(nominal), Nominal: nominal, Open: start, Close: end, Closes: true})
			at = end.Start + 0.6 + 0.6*rnd.Float64()
			if b.wound {
				mix(x, b.sounds.motor, int(at*rate), 1)
			}
			at += 0.7 + 0.6*rnd.Float64()
		}
	}
	x = x[:int(at*rate)]
	b.sounds.noise(rnd, x, b.over)
	return x, truth
}

// varied is a click as it might have sounded another time: up to 1.5 dB louder or
// softer, and tilted towards the high or the low tones by up to 5 dB. The filter that
// does so answers at once, and leaves the onset where it is.
func varied(rnd *rand.Rand, click []float64) []float64 {
	gain, tilt := decibelGain(3*rnd.Float64()-1.5), 0.6*rnd.Float64()-0.3
	out := make([]float64, len(click))
	for i, v := range click {
		out[i] = gain * v
		if i > 0 {
			out[i] += gain * tilt * click[i-1]
		}
	}
	return out
}

// The clicks are real, and only the intervals between them are ours. Where exactly a
// real click begins is a matter of definition, see firstAudible, but the same cut is
// placed each time: a definition that differs from what detection means by an onset
// moves every opening alike and every closing alike, so it shows as one constant in
// all durations. Each duration must be within 0.5 ms with that constant in it, and
// with the constant, their median, taken out, within 0.1 ms.
func TestRecordedClicksAreTimed(t *testing.T) {
	sounds := openRecorded(t)
	for _, over := range []float64{40, 30, 20} {
		for _, wound := range []bool{false, true} {
			name := fmt.Sprintf("click over noise %g dB", over)
			if wound {
				name += ", its motor between firings"
			}
			t.Run(name, func(t *testing.T) {
				x, truth := bench{sounds, over, wound}.clip(uint64(over))
				_, found, err := detect(synth.Loop(dsp.Format{Rate: recordedRate, Channels: 1}, x, int64(len(x))), shutter.Leaf)
				if err != nil {
					t.Fatal(err)
				}
				checkRecorded(t, truth, found)
			})
		}
	}
}

func checkRecorded(t *testing.T, truth []synth.Firing, found []shutter.Firing) {
	t.Helper()
	o := &outcome{truth: synth.Truth{Firings: truth}, found: found, recording: scene{Recording: synth.Recording{Phone: synth.Phone{Rate: recordedRate}}}}
	var n count
	o.of, n = score(truth, found, window)
	if n.right != len(truth) || n.estimates != len(truth) {
		t.Errorf("%d firings right of %d found, %d there:\n%s", n.right, n.estimates, n.references, o.explain())
	}
	var errors []float64
	for _, x := range o.timings() {
		errors = append(errors, x.error)
		if math.Abs(x.error) > 0.5e-3 {
			t.Errorf("firing %d of %.1f ms is off by %+.3f ms, want within 0.5", x.firing, 1e3*x.true, 1e3*x.error)
		}
	}
	slices.Sort(errors)
	middle := quantile(errors, 0.5)
	worst := 0.0
	for _, e := range errors {
		worst = max(worst, math.Abs(e-middle))
	}
	if worst > 0.1e-3 {
		t.Errorf("durations stray by up to %.3f ms from their common error, want within 0.1", 1e3*worst)
	}
	t.Logf("%d of %d firings right; common error %+.3f ms, the worst %.3f ms from it", n.right, n.references, 1e3*middle, 1e3*worst)
}
