package synth

import (
	"fmt"
	"math"
)

// Colour is how a noise falls off with frequency.
type Colour string

// The colours of noise. A quiet room's noise falls by about 5 dB an octave, as the
// curves do by which rooms are rated (L. L. Beranek, 1957; from memory).
const (
	White     Colour = "white"
	Pink      Colour = "pink"
	RoomNoise Colour = "room"
)

// Noise is the noise under a clip. The zero Noise is silence.
type Noise struct {
	Colour    Colour  // "": none
	ClickOver float64 // click over noise, dB, as the package defines it
}

// slope is by how many dB an octave the noise falls.
func (n Noise) slope() float64 {
	switch n.Colour {
	case Pink:
		return 3
	case RoomNoise:
		return 5
	}
	return 0
}

func (n Noise) check() error {
	switch n.Colour {
	case "", White, Pink, RoomNoise:
		return nil
	}
	return fmt.Errorf("no noise is called %q", n.Colour)
}

// colour is what white noise of RMS 1 passes through to be this noise under clicks
// at a level, dBFS: sections and a factor.
func (n Noise) colour(click, rate float64) (sections []shelf, factor float64) {
	sections = shelves(n.slope(), rate)
	return sections, gain(click-n.ClickOver) / bandNoise(sections, rate)
}

// maxShelves is how many half decades lie between 20 Hz and half of 192 kHz.
const maxShelves = 8

// shelf is a first-order section (1 − zero·z⁻¹) / (1 − pole·z⁻¹), made 1 at 0 Hz.
type shelf struct{ pole, zero, scale float64 }

// shelves are sections whose product falls by slope dB an octave on average: in
// every half decade from 20 Hz a pole, and a zero a part of the way to the next.
func shelves(slope, rate float64) []shelf {
	if slope == 0 {
		return nil
	}
	part := slope / (20 * math.Log10(2)) // of the 6 dB an octave a pole alone gives
	var out []shelf
	for f := 20.0; f < 0.4*rate && len(out) < maxShelves; f *= math.Sqrt(10) {
		s := shelf{pole: math.Exp(-2 * math.Pi * f / rate)}
		s.zero = math.Exp(-2 * math.Pi * f * math.Pow(10, part/2) / rate)
		s.scale = (1 - s.pole) / (1 - s.zero)
		out = append(out, s)
	}
	return out
}

// power is the squared gain of the section at a frequency, Hz.
func (s shelf) power(freq, rate float64) float64 {
	c := math.Cos(2 * math.Pi * freq / rate)
	return s.scale * s.scale * (1 - 2*s.zero*c + s.zero*s.zero) / (1 - 2*s.pole*c + s.pole*s.pole)
}

// bandNoise is the RMS above 500 Hz of white noise of RMS 1 passed through sections.
func bandNoise(sections []shelf, rate float64) float64 {
	const steps = 16384
	sum := 0.0
	for i := range steps {
		f := (float64(i) + 0.5) / steps * rate / 2
		p := highpassPower(f, rate)
		for _, s := range sections {
			p *= s.power(f, rate)
		}
		sum += p
	}
	return math.Sqrt(sum / steps)
}

// Hum is what the mains put into a recording. The zero Hum is none.
type Hum struct {
	Frequency float64 // of the mains, 50 or 60 Hz; 0: no hum
	Level     float64 // RMS against the click, dB
}

// wave is the hum of RMS 1 by its harmonics: amplitude and phase of each.
type wave struct {
	freq  float64
	parts [8][2]float64
}

// wave draws the harmonics; the even ones, from rectifiers and cores, are strong.
func (h Hum) wave(d dice) wave {
	w := wave{freq: h.Frequency}
	power := 0.0
	for k := range w.parts {
		a := gain(-4*float64(k) + 4*d.normal())
		if k%2 == 1 {
			a *= 2
		}
		w.parts[k] = [2]float64{a, d.between(0, 2*math.Pi)}
		power += a * a / 2
	}
	for k := range w.parts {
		w.parts[k][0] /= math.Sqrt(power)
	}
	return w
}

// add adds the hum, times factor, to x, whose first sample is frame first.
func (w wave) add(x []float64, first int64, rate, factor float64) {
	for k, p := range w.parts {
		step := 2 * math.Pi * w.freq * float64(k+1) / rate
		// Reduced by whole turns, so that hours keep their precision.
		turn := math.Mod(w.freq*float64(k+1)*float64(first)/rate, 1)
		sin, cos := math.Sincos(2*math.Pi*turn + p[1])
		ds, dc := math.Sincos(step)
		for i := range x {
			x[i] += factor * p[0] * sin
			sin, cos = sin*dc+cos*ds, cos*dc-sin*ds
		}
	}
}
