package timing

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"earshot/dsp"
	"earshot/shutter"
	"earshot/shutter/hear/recording"
)

const rateTest = 48000

// blow is one sudden sound of a movement, s after its first, of an amplitude, and made of
// three modes from a frequency on.
type blow struct{ after, amplitude, hz float64 }

// ringing is the sound of a blow, t in s from when it strikes: it dies away by 8.7 dB in 1.5 ms.
func (b blow) ringing(t float64) float64 {
	if t <= 0 {
		return 0
	}
	sum := 0.0
	for i, ratio := range []float64{1, 1.9, 3.1} {
		sum += math.Sin(2*math.Pi*b.hz*ratio*t + float64(i))
	}
	return b.amplitude * sum / 3 * math.Exp(-t/0.0015) * (1 - math.Exp(-t/0.00005))
}

// fired is a clip of firings that open and close by such blows, at times told.
type fired struct {
	open, close []blow
	durations   []float64 // s from the first blow of the opening to that of the closing
	noise       float64   // RMS
	gain        float64
	silence     float64 // s added before
}

func (f fired) opens() (at []float64) {
	now := f.silence + 0.3
	for i, d := range f.durations {
		at = append(at, now+1e-5*float64(i%7)) // at fractions of a sample
		now += d + 0.5
	}
	return at
}

func (f fired) source() *dsp.Held {
	rng := rand.New(rand.NewPCG(71, 72))
	at := f.opens()
	x := make([]float64, int(rateTest*(at[len(at)-1]+f.durations[len(at)-1]+0.5)))
	for k := int(f.silence * rateTest); k < len(x); k++ {
		x[k] = f.noise * rng.NormFloat64()
	}
	play := func(blows []blow, at float64) {
		for _, b := range blows {
			for k := int((at + b.after) * rateTest); k < int((at+b.after+0.03)*rateTest); k++ {
				x[k] += b.ringing(float64(k)/rateTest - at - b.after)
			}
		}
	}
	for i, d := range f.durations {
		play(f.open, at[i])
		play(f.close, at[i]+d)
	}
	for k := range x {
		x[k] *= f.gain
	}
	return &dsp.Held{Layout: dsp.Format{Rate: rateTest, Channels: 1}, Frames: x}
}

// loudest is the loudest of the blows, s after the first.
func loudest(blows []blow) float64 {
	return slices.MaxFunc(blows, func(a, b blow) int {
		if a.amplitude > b.amplitude {
			return 1
		}
		return -1
	}).after
}

func (f fired) timed(t *testing.T) []shutter.Firing {
	t.Helper()
	src := f.source()
	h, err := dsp.Listen(src)
	if err != nil {
		t.Fatal(err)
	}
	clip := recording.Of(h, src)
	var ends []Ends
	for i, at := range f.opens() {
		ends = append(ends, Ends{at + loudest(f.open), at + f.durations[i] + loudest(f.close), true})
	}
	firings, err := Firings(context.Background(), &clip, shutter.Leaf, ends)
	if err != nil {
		t.Fatal(err)
	}
	return firings
}

var (
	softOpening  = []blow{{0, 0.05, 1900}, {0.003, 0.3, 1500}}
	sharpOpening = []blow{{0, 0.2, 1900}, {0.003, 0.3, 1500}}
	durations    = []float64{0.5, 0.26, 0.13, 0.07, 0.52, 0.25, 0.14, 0.068}
)

func TestLikeEndsAreTimedToLikeEnds(t *testing.T) {
	tests := []struct {
		name        string
		open, close []blow
		noise       float64
		start, stop bool // the edges that are right
	}{
		{"both starts are heard", sharpOpening, []blow{{0, 0.15, 2100}, {0.003, 0.3, 1700}}, 0.0005, true, true},
		{"both start softly", softOpening, []blow{{0, 0.05, 2100}, {0.003, 0.3, 1700}}, 0.0005, true, true},
		{"strokes of 4 ms and 3.8", []blow{{0, 0.1, 1900}, {0.004, 0.3, 1500}}, []blow{{0, 0.1, 2100}, {0.0038, 0.3, 1700}}, 0.0005, true, true},
		{"a soft opening and a closing of one sound", softOpening, []blow{{0, 0.3, 1700}}, 0.0005, true, true},
		{"a closing of one sound that bounces", softOpening, []blow{{0, 0.3, 1700}, {0.0045, 0.075, 1700}}, 0.0005, true, true},
		{"noise that hides the soft start of the closing", []blow{{0, 0.08, 1900}, {0.003, 0.3, 1500}}, []blow{{0, 0.01, 2100}, {0.003, 0.3, 1700}}, 0.006, false, true},
		{"noise that hides the soft start of the opening", []blow{{0, 0.01, 1900}, {0.003, 0.3, 1500}}, []blow{{0, 0.08, 2100}, {0.003, 0.3, 1700}}, 0.006, false, true},
		{"both are one sound", []blow{{0, 0.3, 1500}}, []blow{{0, 0.3, 1700}}, 0.0005, true, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f := fired{open: tt.open, close: tt.close, durations: durations, noise: tt.noise, gain: 1}
			last := func(b []blow) float64 { return b[min(1, len(b)-1)].after }
			back := last(tt.close)
			if back > 0.0041 { // a bounce
				back = 0
			}
			for i, got := range f.timed(t) {
				want := durations[i]
				right := tt.start
				if got.Edge == shutter.EdgeStop {
					want, right = want+back-last(tt.open), tt.stop
				}
				off := math.Abs(got.Duration() - want)
				if !right || off > 0.0001 || off > 3*got.U {
					t.Fatalf("firing %d: by the %s %.3f ms, u %.3f ms; want %.3f", i, got.Edge, 1000*got.Duration(), 1000*got.U, 1000*want)
				}
			}
		})
	}
}

// Where one side's start may be its stop, or the other's stop be hidden, it says so.
func TestEndsThatCannotBeMatchedAreInDoubt(t *testing.T) {
	f := fired{open: []blow{{0, 0.3, 1900}, {0.0035, 0.17, 1500}}, close: []blow{{0, 0.3, 1700}}, durations: durations, noise: 0.006, gain: 1}
	for i, got := range f.timed(t) {
		if got.U < 0.0003 {
			t.Errorf("firing %d: u %.3f ms, want 0.3 or more", i, 1000*got.U)
		}
	}
}

func TestGainPolaritySilenceAndOrderChangeNothing(t *testing.T) {
	plain := fired{open: softOpening, close: []blow{{0, 0.3, 1700}}, durations: durations, noise: 0.0005, gain: 1}
	want := plain.timed(t)
	changed := map[string]fired{}
	for name, change := range map[string]func(*fired){
		"a gain of −20 dB":           func(f *fired) { f.gain = 0.1 },
		"inverted":                   func(f *fired) { f.gain = -1 },
		"a second of silence before": func(f *fired) { f.silence = 1 },
	} {
		f := plain
		change(&f)
		changed[name] = f
	}
	for name, f := range changed {
		t.Run(name, func(t *testing.T) {
			for i, got := range f.timed(t) {
				if got.Edge != want[i].Edge || math.Abs(got.Duration()-want[i].Duration()) > 2e-7 || math.Abs(got.U-want[i].U) > 0.05*want[i].U {
					t.Errorf("firing %d: by the %s %.5f ms, u %.4f; want the %s, %.5f, %.4f", i, got.Edge, 1000*got.Duration(), 1000*got.U, want[i].Edge, 1000*want[i].Duration(), 1000*want[i].U)
				}
			}
		})
	}
	t.Run("in another order", func(t *testing.T) {
		f := plain
		f.durations = slices.Clone(durations)
		slices.Reverse(f.durations)
		for i, got := range f.timed(t) {
			w := want[len(want)-1-i]
			if got.Edge != w.Edge || math.Abs(got.Duration()-w.Duration()) > 2e-5 {
				t.Errorf("firing %d: by the %s %.5f ms, want the %s, %.5f", i, got.Edge, 1000*got.Duration(), w.Edge, 1000*w.Duration())
			}
		}
	})
}

// All ways to explain what is heard have a probability, and these add up to one.
func TestPosteriorsAddUpToOne(t *testing.T) {
	rng := rand.New(rand.NewPCG(81, 82))
	for n := range 20 {
		movement := func() *recording.Movements {
			m := &recording.Movements{}
			at := -0.008
			for range 1 + rng.IntN(5) {
				at += 0.0005 + 0.004*rng.Float64()
				m.Parts = append(m.Parts, recording.Part{At: at, Level: -30 * rng.Float64(), Odds: 12*rng.Float64() - 3})
			}
			return m
		}
		sum := 0.0
		for _, x := range explanations(movement(), movement()) {
			if !(x.posterior >= 0) || !(x.start.variance >= 0) || math.IsNaN(x.stop.time) {
				t.Fatalf("case %d: %+v", n, x)
			}
			sum += x.posterior
		}
		if math.Abs(sum-1) > 1e-9 {
			t.Errorf("case %d: posteriors add up to %g", n, sum)
		}
	}
}
