package describe

import (
	"fmt"
	"math"

	"github.com/mjibson/go-dsp/window"
	"gonum.org/v1/gonum/dsp/fourier"
	"gonum.org/v1/gonum/floats"

	"earshot/dsp"
	"earshot/dsp/internal/num"
)

// Times of a foreground, in s.
const (
	foregroundHop   = 0.0005 // its resolution
	foregroundFrame = 0.001  // what a value is taken over, at least
	noiseAround     = 0.5    // how far before and behind the noise is listened to
	noiseBefore     = 0.03   // what is left out of that before the stretch
	noiseBehind     = 0.1    // and behind it, where a sound may still ring
)

// noiseShare is the part of the frames around it that the noise is measured by: the quieter
// ones, since some of them may hold sounds.
const noiseShare = 0.25

// Foreground is how a stretch of sound stands out of the noise around it. Value i is the power
// about sample First + i·Hop over that of the noise, about 1 if there is only noise.
// Frequencies are weighted by how well they tell the sound from the noise.
type Foreground struct {
	Rate  int
	First float64 // samples from the start of the clip
	Hop   float64 // samples a value
	Over  []float64
}

// Seconds is the time from one value to another that lies n on, s.
func (f *Foreground) Seconds(n float64) float64 { return n * f.Hop / float64(f.Rate) }

// Values is how many values, fractional, cover a time in s.
func (f *Foreground) Values(seconds float64) float64 { return seconds * float64(f.Rate) / f.Hop }

// ListenToForeground reads the stretch of src, in which h was heard, from one time to
// another again, both in samples, and listens to how it stands out of the noise
// around it. It is empty where the stretch is shorter than a value. Its error is that
// of src, wrapped.
//
// The power in each frequency is weighted as an energy detector does best for a
// steady sound of that spectrum in that noise, s/(1+s)/n with s = (power − n)/n
// (Van Trees, Detection, Estimation, and Modulation Theory III, 1971; from memory).
func ListenToForeground(h *dsp.Hearing, src dsp.Source, from, to float64) (*Foreground, error) {
	e := newFrames(h.Rate)
	f := &Foreground{Rate: h.Rate, First: from, Hop: float64(e.hop)}
	n := int((to-from)/f.Hop) + 1
	if !(to > from) || n < 2 {
		return f, nil
	}
	power, err := e.read(src, h.Channel, int64(from), n, e.hop)
	if err != nil {
		return nil, fmt.Errorf("listening to what lies between two sounds: %w", err)
	}
	noise, err := e.noiseAround(src, h, from, to)
	if err != nil {
		return nil, fmt.Errorf("listening to the noise around a sound: %w", err)
	}
	weights := e.weights(power, noise)
	f.Over = make([]float64, n)
	for i := range f.Over {
		f.Over[i] = floats.Dot(weights, power[i*e.bins:(i+1)*e.bins])
	}
	return f, nil
}

// frames takes the power in each frequency of short frames.
type frames struct {
	rate, hop, n, bins int
	window             []float64
	two                []complex128
}

func newFrames(rate int) *frames {
	n := 4
	for float64(n) < foregroundFrame*float64(rate) {
		n *= 2
	}
	return &frames{rate: rate, hop: max(1, int(math.Round(foregroundHop*float64(rate)))), n: n, bins: n/2 - 1,
		window: window.Hann(n), two: make([]complex128, n)}
}

// read returns the powers of count frames, about sample from and every so many
// samples, bins values a frame: those of all frequencies but 0 and the highest.
func (e *frames) read(src dsp.Source, channel int, from int64, count, every int) ([]float64, error) {
	x, err := dsp.Excerpt(src, channel, from-int64(e.n/2), (count-1)*every+e.n)
	if err != nil {
		return nil, err
	}
	power := make([]float64, count*e.bins)
	for i := 0; i < count; i += 2 {
		second := min(i+1, count-1)
		e.both(power[i*e.bins:], power[second*e.bins:], x[i*every:], x[second*every:])
	}
	return power, nil
}

// both writes the powers of two frames. The one is made the real part of a signal
// and the other its imaginary part, so that one transform does for both.
func (e *frames) both(p, q, x, y []float64) {
	for i, w := range e.window {
		e.two[i] = complex(w*x[i], w*y[i])
	}
	fourier.CoefficientsRadix2(e.two)
	for k := 1; k <= e.bins; k++ {
		a, b := e.two[k], e.two[e.n-k]
		p[k-1] = num.Square(real(a)+real(b)) + num.Square(imag(a)-imag(b))
		q[k-1] = num.Square(imag(a)+imag(b)) + num.Square(real(b)-real(a))
	}
}

// noiseAround returns the power of noise in each frequency: what the quieter of the
// frames before and behind the stretch from one time to another stay under.
func (e *frames) noiseAround(src dsp.Source, h *dsp.Hearing, from, to float64) ([]float64, error) {
	before, err := e.quiet(src, h, from-h.Samples(noiseAround), from-h.Samples(noiseBefore))
	if err != nil {
		return nil, err
	}
	behind, err := e.quiet(src, h, to+h.Samples(noiseBehind), to+h.Samples(noiseAround))
	if err != nil {
		return nil, err
	}
	all := append(before, behind...)
	count := len(all) / e.bins
	noise, values := make([]float64, e.bins), make([]float64, count)
	for k := range noise {
		for i := range values {
			values[i] = all[i*e.bins+k]
		}
		noise[k] = e.floor()
		if count > 0 {
			// of powers that are exponential, as those of noise are
			mean := num.Nth(values, int(noiseShare*float64(count))) / -math.Log1p(-noiseShare)
			noise[k] = math.Max(noise[k], mean)
		}
	}
	return noise, nil
}

// quiet reads the frames from one time to another that lie wholly in the clip.
func (e *frames) quiet(src dsp.Source, h *dsp.Hearing, from, to float64) ([]float64, error) {
	half := float64(e.n / 2)
	from, to = math.Max(from, half), math.Min(to, float64(h.Frames)-half)
	if to-from < float64(e.n) {
		return nil, nil
	}
	return e.read(src, h.Channel, int64(from), int(to-from)/e.n, e.n)
}

// floor is the power of digital silence in one frequency.
func (e *frames) floor() float64 {
	return 4 * num.Silence * floats.Dot(e.window, e.window) // 4 as of both
}

// weights are the weights of the frequencies that best tell a sound of these mean powers from
// noise. Noise alone gives a weighted sum of 1.
func (e *frames) weights(power, noise []float64) []float64 {
	weights := make([]float64, e.bins)
	count, sum := len(power)/e.bins, 0.0
	for k := range weights {
		mean := 0.0
		for i := range count {
			mean += power[i*e.bins+k]
		}
		over := math.Max(mean/float64(count)/noise[k]-1, 0.01)
		weights[k] = over / (1 + over) / noise[k]
		sum += weights[k] * noise[k]
	}
	floats.Scale(1/sum, weights)
	return weights
}
