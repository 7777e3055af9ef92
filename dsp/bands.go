package dsp

import (
	"math"

	"github.com/mjibson/go-dsp/window"
	"gonum.org/v1/gonum/dsp/fourier"
)

// bandEdges are the limits of the bands in Hz: equal steps on a log scale from
// the corner of the conditioning to the top of what a phone records.
var bandEdges = func() (edges [NumBands + 1]float64) {
	const top = 16000
	for i := range edges {
		edges[i] = highpassHz * math.Pow(top/highpassHz, float64(i)/NumBands)
	}
	return edges
}()

// spectrometer measures the level in each band over about 10 ms.
type spectrometer struct {
	fft    *fourier.FFT
	window []float64 // falls from 1 to 0: a sound's onset counts most
	first  [NumBands + 1]int
	in     []float64
	out    []complex128
}

func newSpectrometer(rate int) *spectrometer {
	n := 64
	for n*100 < rate {
		n *= 2
	}
	s := &spectrometer{fft: fourier.NewFFT(n), window: window.Hann(2 * n)[n:], in: make([]float64, n), out: make([]complex128, n/2+1)}
	for i, hz := range bandEdges {
		s.first[i] = min(int(math.Round(hz*float64(n)/float64(rate))), n/2)
	}
	return s
}

// len is the number of samples a spectrum is taken over.
func (s *spectrometer) len() int { return len(s.in) }

// measure returns the level of x in each band, dBFS. A shorter x is taken as
// followed by silence.
func (s *spectrometer) measure(x []float64) (bands [NumBands]float32) {
	power := 0.0
	for i, w := range s.window {
		s.in[i] = 0
		if i < len(x) {
			s.in[i] = x[i] * w
		}
		power += w * w
	}
	s.fft.Coefficients(s.out, s.in)
	for b := range bands {
		sum := 0.0
		for _, c := range s.out[s.first[b]:s.first[b+1]] {
			sum += real(c)*real(c) + imag(c)*imag(c)
		}
		bands[b] = float32(decibel(2 * sum / power / float64(len(s.in))))
	}
	return bands
}
