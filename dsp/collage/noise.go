package collage

import (
	"math"
	"math/cmplx"

	"gonum.org/v1/gonum/dsp/fourier"
)

const bins = 1024 // of a spectrum, up to half of its rate

// spectrum is the mean amplitude of s at 48 kHz in each bin.
func spectrum(s sound) []float64 {
	x := resample(s.x, s.rate, 48000)
	fft := fourier.NewFFT(2 * bins)
	sum := make([]float64, bins+1)
	frame := make([]float64, 2*bins)
	n := 0
	for at := 0; at+2*bins <= len(x); at += bins {
		for i := range frame {
			frame[i] = x[at+i] * (0.5 - 0.5*math.Cos(math.Pi*float64(i)/bins))
		}
		for k, c := range fft.Coefficients(nil, frame) {
			sum[k] += real(c)*real(c) + imag(c)*imag(c)
		}
		n++
	}
	for k := range sum {
		sum[k] = math.Sqrt(sum[k] / float64(max(1, n)))
	}
	return sum
}

// steady is noise of a recorded spectrum, seconds long, with an RMS of 1. tilt in dB an
// octave above 1 kHz makes it brighter.
func steady(d draw, amplitudes []float64, rate, seconds, tilt float64) []float64 {
	const n = 1 << 16
	c := make([]complex128, n/2+1)
	for k := 1; k < n/2; k++ {
		f := float64(k) / n * rate
		bin := f / 48000 * 2 * bins
		if f < 20 || bin >= bins {
			continue
		}
		a := amplitudes[int(bin)] * math.Pow(max(f, 100)/1000, tilt/6.02)
		c[k] = cmplx.Rect(a, 2*math.Pi*d.Float64())
	}
	return grains(d, fourier.NewFFT(n).Sequence(nil, c), int(rate*seconds), int(rate*0.4))
}

// grains goes on with the noise x for n samples: pieces of it from anywhere, each fading
// into the next, with an RMS of 1.
func grains(d draw, x []float64, n, length int) []float64 {
	length = min(length, len(x)/2) &^ 1
	window := make([]float64, length)
	for i := range window {
		window[i] = math.Sin(math.Pi * (float64(i) + 0.5) / float64(length))
	}
	y := make([]float64, n+2*length)
	for at := 0; at < n+length/2; at += length / 2 {
		from := d.IntN(len(x) - length)
		for i, w := range window {
			y[at+i] += w * x[from+i]
		}
	}
	y = y[length/2:][:n]
	scale := 1 / max(rms(y), 1e-12)
	for i := range y {
		y[i] *= scale
	}
	return y
}
