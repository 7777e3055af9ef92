package hear_test

import (
	"math"
	"slices"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"earshot/dsp"
	"earshot/dsp/synth"
	"earshot/shutter"
)

// original is a clip and what is heard in it.
type original struct {
	src     *played
	firings []shutter.Firing
}

// originals are clips to be changed, each made when it is first drawn.
func originals(t testing.TB) []func() original {
	var all []func() original
	for seed := uint64(1); seed <= 4; seed++ {
		all = append(all, sync.OnceValue(func() original {
			src, _ := recorded(t, seed, take(leaf(seed), []synth.Setting{{Label: "1/8", Nominal: 0.125, Count: 3}}))
			return original{src, heardIn(t, &played{format: src.format, frames: src.frames}, 0)}
		}))
	}
	return all
}

// change is what may happen to a recording on its way without any of its durations
// becoming another.
type change struct {
	gain          float64 // factor, negative where the polarity is turned
	before, after int     // samples of silence put on
	rate          int     // Hz to which it is resampled
}

func anyChange(t *rapid.T) change {
	c := change{gain: math.Pow(10, rapid.Float64Range(-40, 0).Draw(t, "gain, dB")/20), rate: 48000}
	if rapid.Bool().Draw(t, "polarity turned") {
		c.gain = -c.gain
	}
	c.before, c.after = rapid.IntRange(0, 100000).Draw(t, "samples before"), rapid.IntRange(0, 100000).Draw(t, "samples after")
	if rapid.IntRange(0, 2).Draw(t, "resampled") == 2 {
		c.rate = 44100
	}
	return c
}

// of is the changed clip.
func (c change) of(src *played) *played {
	x := slices.Concat(make([]float64, c.before), src.frames, make([]float64, c.after))
	for i := range x {
		x[i] *= c.gain
	}
	if c.rate != src.format.Rate {
		x = resampled(x)
	}
	return &played{format: dsp.Format{Rate: c.rate, Channels: 1}, frames: x}
}

// resampled is x, sampled at 48 kHz, at 44.1 kHz: 147 samples for every 160, each a sum of
// 128 under a windowed sinc that ends at 44.1 kHz · 0.46 (A. V. Oppenheim and R. W.
// Schafer, Discrete-Time Signal Processing, section 4.6; from memory).
func resampled(x []float64) []float64 {
	const up, down, half = 147, 160, 64
	const cutoff = 0.46 * up / down // cycles a sample of x
	var kernel [up][2 * half]float64
	for phase := range kernel {
		for k := range kernel[phase] {
			at := float64(k-half+1) - float64(phase*down%up)/up
			w := math.Cos(math.Pi * at / (2*half + 2))
			kernel[phase][k] = 2 * cutoff * w * w
			if at != 0 {
				kernel[phase][k] = w * w * math.Sin(2*math.Pi*cutoff*at) / (math.Pi * at)
			}
		}
	}
	out := make([]float64, len(x)*up/down)
	for i := range out {
		first := i*down/up - half + 1
		for k, h := range kernel[i%up] {
			if j := first + k; j >= 0 && j < len(x) {
				out[i] += h * x[j]
			}
		}
	}
	return out
}

// How strong a clip is, which way round, when it begins, how long it goes on and at which
// rate it is kept says nothing of the shutter: each firing is as long as before within
// what its time is stated to be sure to, four standard uncertainties of the difference.
// Where the start of the blades' stroke and its end can both be told, either may be timed,
// at opening and closing alike. What is a firing is decided by evidence that such a change
// may tip where it is near even: in one clip of twenty another number may be heard.
func TestWhatIsNotOfTheShutterLeavesDurationsAsTheyAre(t *testing.T) {
	t.Parallel()
	const stroke = 10e-3 // s, the longest
	clips := originals(t)
	tried, others := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		was := rapid.SampledFrom(clips).Draw(rt, "clip")()
		if len(was.firings) != 3 {
			t.Fatalf("%d firings heard, want 3", len(was.firings))
		}
		c := anyChange(rt)
		got := heardIn(t, c.of(was.src), 0)
		tried++
		if len(got) != len(was.firings) {
			others++
		}
		shift := float64(c.before) / 48000
		for i, b := range was.firings {
			f, heard := openedNear(got, b.Open+shift, stroke)
			if !heard {
				rt.Fatalf("%+v: firing %d is not heard", c, i)
			}
			if f.Closed != b.Closed || f.Unfit != b.Unfit {
				rt.Fatalf("%+v: firing %d closed %v, unfit %q; before %v, %q", c, i, f.Closed, f.Unfit, b.Closed, b.Unfit)
			}
			sure := 4 * math.Hypot(f.U, b.U)
			if off := f.Duration() - b.Duration(); math.Abs(off) > sure {
				rt.Fatalf("%+v: firing %d lasts %.1f µs more than before, sure to %.1f", c, i, 1e6*off, 1e6*sure)
			}
		}
	})
	if 20*others > tried {
		t.Errorf("in %d of %d clips another number of firings is heard, want at most one in twenty", others, tried)
	}
}

// openedNear is the firing that opened within reach of a time.
func openedNear(firings []shutter.Firing, at, reach float64) (shutter.Firing, bool) {
	i := slices.IndexFunc(firings, func(f shutter.Firing) bool { return math.Abs(f.Open-at) <= reach })
	if i < 0 {
		return shutter.Firing{}, false
	}
	return firings[i], true
}
