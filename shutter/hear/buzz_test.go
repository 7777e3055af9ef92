package hear

import (
	"io"
	"math"
	"math/rand/v2"
	"testing"

	"earshot/dsp"
	"earshot/shutter"
)

const hissRate = 16000

// hissing is a clip of white noise, so loud at a time in s as gain says, in dB over
// −60 dBFS.
type hissing struct {
	frame, frames int
	gain          func(t float64) float64
	rng           *rand.Rand
}

func (h *hissing) Format() dsp.Format { return dsp.Format{Rate: hissRate, Channels: 1} }

func (h *hissing) ReadFrames(dst []float64) (n int, err error) {
	for ; n < len(dst) && h.frame < h.frames; n++ {
		dst[n] = 0.001 * math.Pow(10, h.gain(float64(h.frame)/hissRate)/20) * h.rng.NormFloat64()
		h.frame++
	}
	if n == 0 {
		return 0, io.EOF
	}
	return n, nil
}

func (h *hissing) ReadFramesAt([]float64, int64) (int, error) { return 0, io.EOF }

// heardHissing is the room with such a clip in it, of which no sound is kept.
func heardHissing(t *testing.T, seed uint64, seconds float64, gain func(t float64) float64) *recordedClip {
	t.Helper()
	h, err := dsp.Listen(&hissing{frames: int(seconds * hissRate), gain: gain, rng: rand.New(rand.NewPCG(seed, 91))})
	if err != nil {
		t.Fatal(err)
	}
	r := newRecordedClip(h, nil, shutter.Leaf)
	r.sounds = nil
	return r
}

func even(float64) float64 { return 0 }

func TestNoiseThatStaysTheSameIsNoSteadyBuzz(t *testing.T) {
	const trials, seconds = 1000, 120
	r := heardHissing(t, 1, seconds, even)
	rng := rand.New(rand.NewPCG(2, 91))
	sum, chance := 0.0, 0
	for range trials {
		span := 0.2 * math.Pow(20, rng.Float64()) // to 4 s
		from := 0.6 + (seconds-6)*rng.Float64()
		got := r.steady(&sound{at: from}, &sound{at: from + span})
		if sum += got; got > steadyFrom {
			chance++
		}
	}
	if mean := sum / trials; mean > 0.1 || chance > 0 {
		t.Errorf("%.2f standard deviations in the mean, and more than %d in %d of %d; want about 0 and none", mean, steadyFrom, chance, trials)
	}
}

func TestABuzzDrownedInNoiseIsHeardByHowSteadyItIs(t *testing.T) {
	const every, firings = 4.0, 25 // s
	tests := []struct {
		name        string
		inside      float64 // s of it, from the opening on, and how many dB louder that is
		louder      float64
		from, after float64 // s that are louder too before the opening and after the closing
		span        float64
		sure        bool
	}{
		{"1 dB louder for a second", 1, 1, 0, 0, 1, true},
		{"1.5 dB louder for half a second", 0.5, 1.5, 0, 0, 0.5, true},
		{"1 dB louder before too", 1, 1, 1, 0, 1, false},
		{"1 dB louder after too", 1, 1, 0, 1, 1, false},
		{"a tenth of a second, too short to tell", 0.1, 1.5, 0, 0, 0.1, false},
		{"louder for a quarter of the time only", 0.25, 1, 0, 0, 1, false},
		{"1 dB quieter", 1, -1, 0, 0, 1, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := heardHissing(t, 3, every*(firings+1), func(at float64) float64 {
				in := math.Mod(at+every/2, every) - every/2 // from the nearest opening on
				if in > -tt.from && in < tt.inside || in >= 0 && in < tt.span+tt.after && tt.after > 0 {
					return tt.louder
				}
				return 0
			})
			heard := 0
			for i := range firings {
				open := every * float64(i+1)
				if r.steady(&sound{at: open}, &sound{at: open + tt.span}) > steadyFrom {
					heard++
				}
			}
			if tt.sure && heard < firings-1 || !tt.sure && heard > 0 {
				t.Errorf("heard in %d of %d firings", heard, firings)
			}
		})
	}
}

func TestWhatIsOnlySteadyCountsByHalf(t *testing.T) {
	tests := []struct {
		name string
		p    pair
		want float64
	}{
		{"a buzz of 5 dB far under the ends", pair{buzz: 5, margin: 20}, 1},
		{"one of 3 dB", pair{buzz: 3, margin: 20}, 0.5},
		{"none", pair{margin: 20}, 0},
		{"what is very steady", pair{steady: 20, margin: 20}, 0.5},
		{"what is hardly steadier than chance", pair{steady: 4, margin: 20}, 0},
		{"a loud buzz that is steady besides", pair{buzz: 6, steady: 20, margin: 20}, 1},
		{"a buzz hardly under the ends", pair{buzz: 6, steady: 20, margin: 3}, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := tt.p.heard(); math.Abs(got-tt.want) > 1e-9 {
				t.Errorf("heard = %.2f, want %.2f", got, tt.want)
			}
		})
	}
}

// A shutter is fired out of silence.
func TestALoudMomentBeforeAnOpeningIsUnrest(t *testing.T) {
	const open = 2.0
	during := func(from, to, gain float64) func(float64) float64 {
		return func(t float64) float64 {
			if t >= from && t < to {
				return gain
			}
			return 0
		}
	}
	tests := []struct {
		name     string
		gain     func(t float64) float64
		from, to float64
	}{
		{"silence as all around", even, 0, 0.3},
		{"it is loud all through the moment before", during(open-0.2, open, 20), 3, 4},
		{"it is loud for a third of it", during(open-0.1, open-0.05, 20), 0, 0.3},
		{"it was loud a second ago", during(open-1.2, open-0.5, 20), 0, 0.3},
		{"it is loud after", during(open, open+1, 20), 0, 0.3},
		{"it is loud all the time", during(0, 4, 20), 0, 0.3},
		{"it is louder by 4 dB", during(open-0.2, open, 4), 0, 0.8},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := heardHissing(t, 4, 4, tt.gain)
			if got := r.unrest(&sound{at: open}); got < tt.from || got > tt.to {
				t.Errorf("evidence against an opening %.2f, want %g to %g", got, tt.from, tt.to)
			}
		})
	}
	if got := heardHissing(t, 5, 0.1, even).unrest(&sound{at: 0}); got != 0 {
		t.Errorf("%.2f where the clip begins, want nothing", got)
	}
}

func TestALouderOpeningDoesNotHideABuzz(t *testing.T) {
	r := heardHissing(t, 3, 10, even)
	alike, quiet := r.buzz(&sound{at: 4, level: -20}, &sound{at: 5, level: -20})
	louder, same := r.buzz(&sound{at: 4, level: -20}, &sound{at: 5, level: -29})
	if math.Abs(alike) > 1 || louder > -8 {
		t.Errorf("noise is %.1f dB over what is around, and %.1f after a louder opening; want about 0 and −9", alike, louder)
	}
	if math.Abs(quiet-same) > 1 {
		t.Errorf("a buzz would be heard over %.1f dBFS, and over %.1f after a louder opening; want the same", quiet, same)
	}
}
