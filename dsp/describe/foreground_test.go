package describe

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"earshot/dsp"
	"earshot/dsp/internal/num"
)

// beating is a clip of 3 s at a rate in Hz with white noise in it, into which from 1 s
// to 2 s short sounds of about 4 kHz fall, so many a second; every other one is weaker
// by a factor, and none falls in a stretch of time.
func beating(rate int, beats, loud, weaker float64, still [2]float64) *dsp.Held {
	rng := rand.New(rand.NewPCG(3, uint64(beats)))
	x := make([]float64, 3*rate)
	for i := range x {
		x[i] = 0.001 * rng.NormFloat64()
	}
	n := 0
	for t := 1.0; t < 2; t += 1 / beats {
		level := loud
		if n++; n%2 == 1 {
			level *= weaker
		}
		if t >= still[0] && t < still[1] {
			continue
		}
		for k := range rate / 500 {
			s := float64(k) / float64(rate)
			x[int(t*float64(rate))+k] += level * math.Exp(-s/0.0004) * math.Sin(2*math.Pi*4000*s)
		}
	}
	return &dsp.Held{Layout: dsp.Format{Rate: rate, Channels: 1}, Frames: x}
}

// foregroundOf is that of a clip from one time to another, s.
func foregroundOf(t *testing.T, m *dsp.Held, from, to float64) *Foreground {
	t.Helper()
	h := &dsp.Hearing{Format: m.Layout, Frames: int64(len(m.Frames))}
	f, err := ListenToForeground(h, m, h.Samples(from), h.Samples(to))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func averageOf(x []float64) (mean float64) {
	for _, v := range x {
		mean += v / float64(len(x))
	}
	return mean
}

func TestNoiseIsAsLoudAsItself(t *testing.T) {
	for _, rate := range []int{8000, 16000, 44100, 48000, 96000} {
		f := foregroundOf(t, beating(rate, 100, 0, 1, [2]float64{}), 1, 2)
		if len(f.Over) < 1900 {
			t.Fatalf("%d Hz: %d values in a second, want about 2000", rate, len(f.Over))
		}
		if m := averageOf(f.Over); math.Abs(m-1) > 0.12 {
			t.Errorf("%d Hz: noise is %.2f times itself, want 1", rate, m)
		}
	}
}

func TestASoundInFewFrequenciesStandsOutBeyondItsPower(t *testing.T) {
	m := beating(48000, 200, 0.004, 1, [2]float64{})
	noise, both := num.MeanSquare(m.Frames[:40000]), num.MeanSquare(m.Frames[50000:90000])
	if got := averageOf(foregroundOf(t, m, 1, 2).Over); got < 1.5*both/noise {
		t.Errorf("%.2f over noise, and its power is %.2f times that of noise", got, both/noise)
	}
}

func TestRepetitionsAreCounted(t *testing.T) {
	tests := []struct {
		name          string
		rate          int
		beats, weaker float64
	}{
		{"seldom", 48000, 61, 1},
		{"often", 48000, 577, 1},
		{"at a low sampling rate", 16000, 143, 1},
		{"every other one weaker", 48000, 211, 0.6},
		{"every other one much weaker", 44100, 120, 0.35},
	}
	for _, test := range tests {
		f := foregroundOf(t, beating(test.rate, test.beats, 0.02, test.weaker, [2]float64{}), 1, 2)
		for first := 0; first+240 < len(f.Over); first += 240 {
			got, likeness := f.Repetition(first, first+240, 45, 700)
			if math.Abs(got/test.beats-1) > 0.02 || likeness < 0.25 || likeness > 1 {
				t.Errorf("%s, from value %d: %.1f a second (likeness %.2f), want %g", test.name, first, got, likeness, test.beats)
			}
		}
	}
}

func TestNoiseSeldomRepeatsItself(t *testing.T) {
	f := foregroundOf(t, beating(48000, 100, 0, 1, [2]float64{}), 0.7, 2.3)
	repeats := 0
	for first := 0; first+240 < len(f.Over); first += 120 {
		if rate, _ := f.Repetition(first, first+240, 45, 700); rate > 0 {
			repeats++
		}
	}
	if repeats > 3 {
		t.Errorf("noise repeats itself in %d windows", repeats)
	}
}

func TestAForegroundThatCannotBeHadIsEmptyOrAnError(t *testing.T) {
	m := beating(48000, 100, 0.01, 1, [2]float64{})
	h := &dsp.Hearing{Format: m.Layout, Frames: int64(len(m.Frames))}
	for _, span := range [][2]float64{{1000, 1000}, {1000, 900}, {1000, 1010}, {1000, math.NaN()}} {
		if f, err := ListenToForeground(h, m, span[0], span[1]); err != nil || len(f.Over) != 0 {
			t.Errorf("%v: %d values, %v; want none", span, len(f.Over), err)
		}
	}
	gone := errors.New("the card was taken out")
	if _, err := ListenToForeground(h, &distant{m, gone}, 48000, 96000); !errors.Is(err, gone) {
		t.Errorf("error %v, want that of the source", err)
	}
	whole, err := ListenToForeground(h, m, 0, float64(h.Frames))
	if err != nil || len(whole.Over) == 0 {
		t.Errorf("the whole clip, without noise around: %d values, %v", len(whole.Over), err)
	}
	if rate, _ := whole.Repetition(0, 3, 45, 700); rate != 0 {
		t.Errorf("three values repeat themselves %g times a second", rate)
	}
}
