package dsp

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"earshot/dsp/internal/num"
)

// failing is a clip that can be read to its end, and then no more.
type failing struct {
	Held
	err error
}

func (f *failing) ReadFrames(dst []float64) (int, error) {
	n, err := f.Held.ReadFrames(dst)
	if err != nil {
		err = f.err
	}
	return n, err
}

// bursts is mono noise of the given level with a decaying burst of noise of
// amplitude 0.3 at each of the samples.
func bursts(rate, n int, noise float64, at ...int) []float64 {
	rng := rand.New(rand.NewPCG(11, 12))
	x := make([]float64, n)
	for i := range x {
		x[i] = noise * rng.NormFloat64()
	}
	for _, k := range at {
		for i := 0; i < rate/50 && k+i < n; i++ {
			x[k+i] += 0.3 * math.Exp(-float64(i)/(0.003*float64(rate))) * rng.NormFloat64()
		}
	}
	return x
}

func listen(t *testing.T, f Format, frames []float64) *Hearing {
	t.Helper()
	h, err := Listen(&Held{Layout: f, Frames: frames})
	if err != nil {
		t.Fatal(err)
	}
	return h
}

func wantOnsets(t *testing.T, h *Hearing, tolerance float64, want ...int) {
	t.Helper()
	var loud []Transient
	for _, tr := range h.Transients {
		if tr.Rise > 15 {
			loud = append(loud, tr)
		}
	}
	if len(loud) != len(want) {
		t.Fatalf("%d transients, want %d: %+v", len(loud), len(want), loud)
	}
	for i, tr := range loud {
		if math.Abs(tr.Onset-float64(want[i])) > tolerance {
			t.Errorf("onset %d = %.2f ± %.2f, want %d", i, tr.Onset, tr.U, want[i])
		}
	}
}

func TestBurstsAreFoundWhereTheyBegin(t *testing.T) {
	for _, rate := range []int{8000, 16000, 44100, 48000, 96000, 192000} {
		at := []int{rate / 3, rate, rate + rate/16, 2*rate + 777}
		h := listen(t, Format{rate, 1}, bursts(rate, 3*rate, 0.001, at...))
		wantOnsets(t, h, 0.0001*float64(rate)+1, at...)
		if h.Frames != int64(3*rate) {
			t.Errorf("%d Hz: %d frames", rate, h.Frames)
		}
		if math.Abs(h.Noise+60) > 2 {
			t.Errorf("%d Hz: noise = %.1f dBFS, want −60", rate, h.Noise)
		}
	}
}

// What a block ends with must not matter to what is heard.
func TestBlockBordersLeaveNoTrace(t *testing.T) {
	const rate = 48000
	for _, k := range []int{blockFrames - 1, blockFrames, blockFrames + 1, 3 * blockFrames, 5*blockFrames - 20} {
		h := listen(t, Format{rate, 1}, bursts(rate, rate, 0.001, k))
		wantOnsets(t, h, 4, k)
	}
}

func TestShiftedClipShiftsEveryOnset(t *testing.T) {
	const rate, shift = 48000, 24 * 50
	x := bursts(rate, rate, 0.001, 9000, 20000, 33333)
	want := listen(t, Format{rate, 1}, x)
	noise := bursts(rate, shift, 0.001)
	got := listen(t, Format{rate, 1}, append(noise, x...))
	for _, k := range []int{9000, 20000, 33333} {
		a, b := nearest(want, float64(k)), nearest(got, float64(k+shift))
		if math.Abs(b.Onset-a.Onset-shift) > 0.01 {
			t.Errorf("onset moved by %.3f samples, want %d", b.Onset-a.Onset, shift)
		}
	}
}

func nearest(h *Hearing, at float64) (best Transient) {
	for _, t := range h.Transients {
		if math.Abs(t.Onset-at) < math.Abs(best.Onset-at) {
			best = t
		}
	}
	return best
}

// interleave makes frames of one sample of each channel.
func interleave(channels ...[]float64) []float64 {
	var out []float64
	for i := range channels[0] {
		for _, c := range channels {
			out = append(out, c[i])
		}
	}
	return out
}

func TestChannels(t *testing.T) {
	const rate = 48000
	at := []int{9000, 20000, 33333}
	x := bursts(rate, rate, 0.001, at...)
	inverted := make([]float64, len(x))
	for i, v := range x {
		inverted[i] = -v
	}
	noisy := bursts(rate, rate, 0.02, at...)
	dead := make([]float64, len(x))
	tests := []struct {
		name   string
		frames []float64
		n      int
		want   int
	}{
		{"opposite phase does not cancel", interleave(x, inverted), 2, 0},
		{"a dead left side does not matter", interleave(dead, x), 2, 1},
		{"a dead right side does not matter", interleave(x, dead), 2, 0},
		{"the clearer of two is listened to", interleave(noisy, x), 2, 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			h := listen(t, Format{rate, tt.n}, tt.frames)
			if h.Channel != tt.want {
				t.Errorf("channel %d, want %d", h.Channel, tt.want)
			}
			wantOnsets(t, h, 6, at...)
		})
	}
}

func TestZeroedStretchIsAGap(t *testing.T) {
	const rate = 48000
	x := bursts(rate, rate, 0.001, 9000)
	clear(x[24000:26400])
	h := listen(t, Format{rate, 1}, x)
	if len(h.Gaps) != 1 || h.Gaps[0] != (Gap{24000, 26400}) {
		t.Errorf("gaps = %v, want [{24000 26400}]", h.Gaps)
	}
}

func TestClippedSamplesAreCounted(t *testing.T) {
	x := bursts(48000, 48000, 0.001, 9000)
	x[100], x[200], x[201] = 1, -1, -1
	h := listen(t, Format{48000, 1}, x)
	if h.Clipped != 3 || h.Peak != 1 {
		t.Errorf("%d clipped, peak %v; want 3 and 1", h.Clipped, h.Peak)
	}
}

func TestNothingHeardIsNoError(t *testing.T) {
	tests := map[string][]float64{
		"no samples at all": {},
		"one sample":        {0.5},
		"digital silence":   make([]float64, 48000),
		"a constant offset": constant(48000, 0.25),
	}
	for name, x := range tests {
		t.Run(name, func(t *testing.T) {
			h := listen(t, Format{48000, 1}, x)
			if len(h.Transients) != 0 || h.Frames != int64(len(x)) {
				t.Errorf("%d transients in %d frames", len(h.Transients), h.Frames)
			}
		})
	}
}

func constant(n int, v float64) []float64 {
	x := make([]float64, n)
	for i := range x {
		x[i] = v
	}
	return x
}

func TestErrorOfTheSourceIsPassedOn(t *testing.T) {
	want := errors.New("cable pulled")
	_, err := Listen(&failing{Held{Layout: Format{48000, 1}, Frames: make([]float64, 100)}, want})
	if !errors.Is(err, want) {
		t.Errorf("err = %v, want %v", err, want)
	}
}

// A Butterworth high-pass of fourth order passes half the power at its corner and
// falls by 24 dB an octave below (closed form: 1/(1+(fc/f)^8)).
func TestHighpassIsAButterworth(t *testing.T) {
	const rate, n = 48000, 48000
	for _, hz := range []float64{125, 250, 500, 1000, 4000} {
		f := newHighpass(rate)
		x, y := make([]float64, n), make([]float64, n)
		for i := range x {
			x[i] = math.Sin(2 * math.Pi * hz * float64(i) / rate)
		}
		f.filter(y, x, 0, 1)
		got := 10 * math.Log10(2*num.MeanSquare(y[n/2:]))
		want := -10 * math.Log10(1+math.Pow(500/hz, 8))
		if math.Abs(got-want) > 0.1 {
			t.Errorf("%v Hz: %.2f dB, want %.2f", hz, got, want)
		}
	}
}

func TestBandsShowWhereASoundLies(t *testing.T) {
	const rate = 48000
	s := newSpectrometer(rate)
	for b := range NumBands {
		hz := math.Sqrt(bandEdges[b] * bandEdges[b+1])
		x := make([]float64, s.len())
		for i := range x {
			x[i] = math.Sin(2 * math.Pi * hz * float64(i) / rate)
		}
		bands := s.measure(x, nil).Bands
		for other, level := range bands {
			if other != b && level > bands[b] {
				t.Errorf("%.0f Hz: band %d at %.1f dB is above band %d at %.1f", hz, other, level, b, bands[b])
			}
		}
	}
}
