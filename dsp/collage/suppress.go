package collage

import (
	"math"
	"math/cmplx"
	"slices"

	"gonum.org/v1/gonum/dsp/fourier"
)

// suppress takes noise out in each band of about 90 Hz, down to most dB under what it was,
// as a phone does that wants to hear speech: by spectral subtraction, in frames of about
// 11 ms that overlap by half.
func (t *take) suppress(most float64) {
	n := 64
	for float64(n) < 0.008*t.rate {
		n *= 2
	}
	fft, hop := fourier.NewFFT(n), n/2
	window := make([]float64, n)
	for i := range window {
		window[i] = math.Sin(math.Pi * (float64(i) + 0.5) / float64(n))
	}
	frame, c := make([]float64, n), make([]complex128, n/2+1)
	noise := t.noiseIn(fft, window)
	floor, harsh := fromDB(-most), t.between(1, 2.5)
	y := make([]float64, len(t.tape)+n)
	for at := 0; at+n <= len(t.tape); at += hop {
		windowed(frame, t.tape[at:at+n], window)
		c = fft.Coefficients(c, frame)
		for k := range c {
			left := 1 - harsh*noise[k]/max(cmplx.Abs(c[k]), 1e-12)
			c[k] *= complex(max(floor, left), 0)
		}
		for i, v := range fft.Sequence(frame, c) {
			y[at+i] += v / float64(n) * window[i]
		}
	}
	t.tape = y[:len(t.tape)]
}

func windowed(dst, x, window []float64) {
	for i, w := range window {
		dst[i] = w * x[i]
	}
}

// noiseIn is the median amplitude of each band over 200 frames.
func (t *take) noiseIn(fft *fourier.FFT, window []float64) []float64 {
	n := len(window)
	all := make([][]float64, n/2+1)
	frame := make([]float64, n)
	for range 200 {
		at := t.IntN(len(t.tape) - n)
		windowed(frame, t.tape[at:at+n], window)
		for k, c := range fft.Coefficients(nil, frame) {
			all[k] = append(all[k], cmplx.Abs(c))
		}
	}
	noise := make([]float64, len(all))
	for k, a := range all {
		slices.Sort(a)
		noise[k] = a[len(a)/2]
	}
	return noise
}
