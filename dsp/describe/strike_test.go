package describe

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"earshot/dsp"
)

// blow is one short sound: when, s, and how loud.
type blow struct{ at, loud float64 }

// struck is half a second at 48 kHz of noise with blows in it.
func struck(blows ...blow) *dsp.Held {
	rng := rand.New(rand.NewPCG(5, 5))
	x := make([]float64, 24000)
	for i := range x {
		x[i] = 1e-4 * rng.NormFloat64()
	}
	for _, b := range blows {
		for k := range 240 {
			s := float64(k) / 48000
			x[int(b.at*48000)+k] += b.loud * math.Exp(-s/0.0005) * math.Sin(2*math.Pi*3000*s)
		}
	}
	return &dsp.Held{Layout: dsp.Format{Rate: 48000, Channels: 1}, Frames: x}
}

func listenTo(t *testing.T, m *dsp.Held, at, before, behind float64) Strike {
	t.Helper()
	s, err := ListenToStrike(m, 0, at*48000, before*48000, behind*48000)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestStrikes(t *testing.T) {
	free := math.Inf(1)
	one := listenTo(t, struck(blow{0.2, 0.1}), 0.2, free, free)
	weak := listenTo(t, struck(blow{0.2, 0.1 / 4}), 0.2, free, free)
	if d := one.Level - weak.Level; math.Abs(d-12.04) > 0.2 {
		t.Errorf("a quarter of the amplitude is %.2f dB weaker, want 12", d)
	}
	if math.Abs(one.Lead-weak.Lead) > 12 || one.Again != 0 {
		t.Errorf("leads %g and %g, again %g; want alike and nothing more", one.Lead, weak.Lead, one.Again)
	}
	short := listenTo(t, struck(blow{0.197, 0.03}, blow{0.2, 0.1}), 0.2, free, free)
	long := listenTo(t, struck(blow{0.192, 0.03}, blow{0.2, 0.1}), 0.2, free, free)
	if r := long.Lead / short.Lead; r < 2 || r > 3.5 {
		t.Errorf("a beginning 8 instead of 3 ms earlier leads %.1f times as long, want about 8/3", r)
	}
	if cut := listenTo(t, struck(blow{0.192, 0.03}, blow{0.2, 0.1}), 0.2, 0.002, free); cut.Lead > 0.002*48000 {
		t.Errorf("lead %g samples, and only 96 belong to it", cut.Lead)
	}
}

func TestASecondStrikeIsHeard(t *testing.T) {
	free := math.Inf(1)
	tests := []struct {
		name  string
		also  blow
		again float64 // s; 0: none
	}{
		{"a bounce at once is part of it", blow{0.2045, 0.05}, 0},
		{"one after 15 ms is another", blow{0.215, 0.05}, 0.015},
		{"one after 60 ms too", blow{0.26, 0.02}, 0.06},
		{"what comes much later is not looked for", blow{0.32, 0.05}, 0},
	}
	for _, test := range tests {
		got := listenTo(t, struck(blow{0.2, 0.1}, test.also), 0.2, free, free)
		if math.Abs(got.Again/48000-test.again) > 0.001 {
			t.Errorf("%s: again after %.1f ms, want %.1f", test.name, got.Again/48, 1e3*test.again)
		}
		if d := got.AgainLevel - got.Level - 20*math.Log10(test.also.loud/0.1); test.again > 0 && math.Abs(d) > 1.5 {
			t.Errorf("%s: %.1f dB off in level", test.name, d)
		}
	}
	if got := listenTo(t, struck(blow{0.2, 0.1}, blow{0.215, 0.05}), 0.2, free, 0.01); got.Again != 0 {
		t.Errorf("again after %g samples, and nothing behind 480 belongs to it", got.Again)
	}
}

func TestAStrikeAtTheEdgesOfAClipIsNoError(t *testing.T) {
	m := struck(blow{0.2, 0.1})
	for _, at := range []float64{0, 0.0001, 0.4999, 0.5} {
		if s := listenTo(t, m, at, math.Inf(1), math.Inf(1)); math.IsNaN(s.Level) || s.Level > -50 {
			t.Errorf("at %g s: %+v, want noise", at, s)
		}
	}
	gone := errors.New("the card was taken out")
	if _, err := ListenToStrike(&distant{m, gone}, 0, 9600, 1, 1); !errors.Is(err, gone) {
		t.Errorf("error %v, want that of the source", err)
	}
}
