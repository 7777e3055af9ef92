package synth

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/dsp/fourier"
)

// mustClip plays a recording that can be played.
func mustClip(t testing.TB, r Recording) *Clip {
	t.Helper()
	c, err := r.Clip()
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// bareShutter draws a leaf shutter of which nothing but blades and gears is heard.
func bareShutter(seed uint64) *Shutter {
	s := Draw(seed, Leaf)
	s.Winding, s.Lever = NoWinding, false
	return s
}

// loudestIn is the greatest absolute value of x from one time to another, s.
func loudestIn(x []float64, from, to, rate float64) float64 {
	most := 0.0
	for _, v := range x[int(math.Ceil(from*rate)):int(math.Ceil(to*rate))] {
		most = max(most, math.Abs(v))
	}
	return most
}

// firstSound is the time, s, of the first sample from a time on that is not 0.
func firstSound(x []float64, from, rate float64) float64 {
	for i := int(math.Ceil(from * rate)); i < len(x); i++ {
		if x[i] != 0 {
			return float64(i) / rate
		}
	}
	return math.Inf(1)
}

// above500 is x with everything under 500 Hz taken out of its spectrum: an edge
// unlike any filter of the package.
func above500(x []float64, rate float64) []float64 {
	return only(x, [2]float64{500, rate}, rate)
}

// only is x with everything outside a band, Hz, taken out of its spectrum.
func only(x []float64, band [2]float64, rate float64) []float64 {
	n := 1
	for n < len(x) {
		n *= 2
	}
	fft := fourier.NewFFT(n)
	c := fft.Coefficients(nil, append(append([]float64(nil), x...), make([]float64, n-len(x))...))
	for k := range c {
		if f := float64(k) * rate / float64(n); f < band[0] || f >= band[1] {
			c[k] = 0
		}
		c[k] /= complex(float64(n), 0)
	}
	return fft.Sequence(nil, c)[:len(x)]
}

// bandRMS is the RMS of x within a band, Hz.
func bandRMS(x []float64, band [2]float64, rate float64) float64 { return rms(only(x, band, rate)) }

func rms(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v * v
	}
	return math.Sqrt(sum / float64(len(x)))
}

// slowLoudest is the greatest RMS over any 2 ms of x, by trying all.
func slowLoudest(x []float64, rate float64) float64 {
	n := int(math.Round(0.002 * rate))
	most := 0.0
	for i := 0; i+n <= len(x); i++ {
		most = max(most, rms(x[i:i+n]))
	}
	return most
}
