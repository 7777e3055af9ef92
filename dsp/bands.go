package dsp

import (
	"math"

	"github.com/mjibson/go-dsp/window"
	"gonum.org/v1/gonum/dsp/fourier"
	"gonum.org/v1/gonum/floats"

	"earshot/dsp/internal/num"
)

// bandEdges are the limits of the bands in Hz: equal steps on a log scale from
// the corner of the conditioning to the top of what a phone records.
var bandEdges = func() (edges [NumBands + 1]float64) {
	const top = 16000
	for i := range edges {
		edges[i] = HighpassHz * math.Pow(top/HighpassHz, float64(i)/NumBands)
	}
	return edges
}()

// spectrometer measures the level in each band over about 10 ms.
type spectrometer struct {
	window []float64 // falls from 1 to 0: a sound's onset counts most
	scale  float64   // from the energy of a band to its mean square
	first  [NumBands + 1]int
	both   []complex128
}

func newSpectrometer(rate int) *spectrometer {
	n := 64
	for n*100 < rate {
		n *= 2
	}
	s := &spectrometer{window: window.Hann(2 * n)[n:], both: make([]complex128, n)}
	s.scale = 2 / floats.Dot(s.window, s.window) / float64(n)
	for i, hz := range bandEdges {
		s.first[i] = min(int(math.Round(hz*float64(n)/float64(rate))), n/2)
	}
	return s
}

// len is the number of samples a spectrum is taken over.
func (s *spectrometer) len() int { return len(s.both) }

// measure returns the levels of a sound in each band and those of the noise before
// it. What is shorter than len is taken as followed by silence.
//
// The sound is made the real part of one signal and the noise its imaginary part:
// one transform does for both, since the transform of what is real is even in its
// real part and odd in its imaginary part.
func (s *spectrometer) measure(sound, noise []float64) *Spectrum {
	for i, w := range s.window {
		var re, im float64
		if i < len(sound) {
			re = sound[i] * w
		}
		if i < len(noise) {
			im = noise[i] * w
		}
		s.both[i] = complex(re, im)
	}
	fourier.CoefficientsRadix2(s.both)
	n := len(s.both)
	bands := new(Spectrum)
	for b := range NumBands {
		var ofSound, ofNoise float64
		for k := s.first[b]; k < s.first[b+1]; k++ {
			p, q := s.both[k], s.both[(n-k)%n]
			ofSound += num.Square(real(p)+real(q)) + num.Square(imag(p)-imag(q))
			ofNoise += num.Square(imag(p)+imag(q)) + num.Square(real(p)-real(q))
		}
		bands.Bands[b] = float32(num.Level(ofSound / 4 * s.scale))
		bands.Noise[b] = float32(num.Level(ofNoise / 4 * s.scale))
	}
	return bands
}
