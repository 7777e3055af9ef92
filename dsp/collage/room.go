package collage

import (
	"math"

	"gonum.org/v1/gonum/dsp/fourier"
)

// room is an impulse response: the direct sound first, a table's and walls' reflections,
// and a tail that is a recorded decay or recorded noise that decays.
func (t *take) room() []float64 {
	seconds := t.ratio(0.08, 0.32) // of the tail that is kept
	h := make([]float64, int(seconds*t.rate))
	h[0] = 1
	for range t.whole(1, 4) {
		h[int(t.ratio(0.0008, 0.012)*t.rate)] += t.gain(-22, -9) * float64(1-2*t.IntN(2))
	}
	tail := t.tail(len(h))
	gain := t.gain(-22, -7) / math.Sqrt(energy(tail)+1e-12) // of all that is reflected, to the direct
	from := int(t.ratio(0.001, 0.006) * t.rate)
	for i := from; i < len(h); i++ {
		h[i] += gain * tail[i-from]
	}
	return h
}

// tail is n samples of decay.
func (t *take) tail(n int) []float64 {
	if t.chance(0.4) {
		x := t.fetch(pick(t.draw, t.lib.sounds[decay]))
		x = cut(x[onset(x):], t.rate, float64(n)/t.rate)
		skip := min(len(x), int(0.003*t.rate))
		return append(x[skip:], make([]float64, n-len(x)+skip)...)
	}
	x := steady(t.draw, pick(t.draw, t.lib.spectra), t.rate, float64(n+1)/t.rate, t.between(0, 3))[:n]
	falls := math.Log(1000) / (t.ratio(0.12, 0.9) * t.rate) // 60 dB over so many s
	for i := range x {
		x[i] *= math.Exp(-falls*float64(i)) * (0.5 + 0.5*math.Cos(math.Pi*float64(i)/float64(n)))
	}
	return x
}

func energy(x []float64) float64 {
	e := 0.0
	for _, v := range x {
		e += v * v
	}
	return e
}

// convolve puts x through h; blocks of silence cost nothing. The result is as long as x.
func convolve(x, h []float64) []float64 {
	n := 2
	for n < 2*len(h) {
		n *= 2
	}
	fft, step := fourier.NewFFT(n), n-len(h)+1
	padded := make([]float64, n)
	copy(padded, h)
	response := fft.Coefficients(nil, padded)
	y := make([]float64, len(x)+n)
	block, c := make([]float64, n), make([]complex128, n/2+1)
	for at := 0; at < len(x); at += step {
		part := x[at:min(len(x), at+step)]
		if peak(part) == 0 {
			continue
		}
		clear(block)
		copy(block, part)
		c = fft.Coefficients(c, block)
		for k := range c {
			c[k] *= response[k]
		}
		for i, v := range fft.Sequence(block, c) {
			y[at+i] += v / float64(n)
		}
	}
	return y[:len(x)]
}
