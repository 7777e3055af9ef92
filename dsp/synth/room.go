package synth

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/dsp/fourier"
)

// speedOfSound is in m/s, at 20 °C.
const speedOfSound = 343.0

// Room is where the shutter is fired.
type Room struct {
	RT60     float64 // s in which the sound decays by 60 dB, below 2 kHz; 0.1 to 2
	Volume   float64 // m³; 0: 40
	Distance float64 // m from the shutter to the telephone; 0: 0.2
	Bare     bool    // high tones decay as slowly as low ones; otherwise a third quicker
}

func (r *Room) check() error {
	if !(r.RT60 >= 0.1 && r.RT60 <= 2) {
		return fmt.Errorf("reverberation time %g s: 0.1 to 2 s", r.RT60)
	}
	if r.Volume < 0 || r.Distance < 0 {
		return fmt.Errorf("a room of %g m³, the telephone at %g m: neither can be below 0", r.Volume, r.Distance)
	}
	return nil
}

// withDefaults fills in the volume and the distance.
func (r Room) withDefaults() Room {
	if r.Volume == 0 {
		r.Volume = 40
	}
	if r.Distance == 0 {
		r.Distance = 0.2
	}
	return r
}

// DirectOverReverb is the level of the direct sound over the reverberant sound, dB:
// they are equal at the critical distance.
func (r Room) DirectOverReverb() float64 {
	r = r.withDefaults()
	critical := 0.057 * math.Sqrt(r.Volume/r.RT60)
	return decibels(critical / r.Distance)
}

// response draws what the room adds to a direct sound of amplitude 1, sampled at
// rate, Hz; index 0 is the direct sound's arrival, which is left out.
func (r Room) response(d dice, rate float64) []float64 {
	r = r.withDefaults()
	h := make([]float64, int(math.Ceil(r.RT60*rate)))
	r.diffuse(d, h, rate)
	r.reflections(d, h, rate)
	return h
}

// diffuse adds decaying noise from the first 4 ms on, when walls have answered.
func (r Room) diffuse(d dice, h []float64, rate float64) {
	fast := 1.5
	if r.Bare {
		fast = 1
	}
	keep := math.Exp(-2 * math.Pi * 2000 / rate)
	low, energy := 0.0, 0.0
	from := int(0.004 * rate)
	for i := range h {
		x := d.NormFloat64()
		low = keep*low + (1-keep)*x
		decay := math.Log(1000) * float64(i) / rate / r.RT60
		v := low*math.Exp(-decay) + (x-low)*math.Exp(-fast*decay)
		if i >= from {
			h[i] = v
			energy += v * v
		}
	}
	scale := gain(-r.DirectOverReverb()) / math.Sqrt(energy)
	for i := from; i < len(h); i++ {
		h[i] *= scale
	}
}

// reflections adds the table's reflection, which comes within a fraction of a
// millisecond, and those of five surfaces around.
func (r Room) reflections(d dice, h []float64, rate float64) {
	height := d.between(0.02, 0.1)
	r.reflect(h, rate, math.Hypot(r.Distance, 2*height), d.between(0.3, 0.7))
	side := math.Cbrt(r.Volume)
	for range 5 {
		r.reflect(h, rate, side*d.between(0.5, 2), d.between(0.4, 0.8))
	}
}

// reflect adds one reflection that has come path m, no shorter than the direct way, and
// kept a share of its amplitude.
func (r Room) reflect(h []float64, rate, path, kept float64) {
	path = max(path, r.Distance)
	at := (path - r.Distance) / speedOfSound * rate
	i := int(at)
	if i+1 >= len(h) {
		return
	}
	a := kept * r.Distance / path
	h[i] += a * (1 - (at - float64(i)))
	h[i+1] += a * (at - float64(i))
}

// echo convolves blocks with a room's response.
type echo struct {
	taps     int
	fft      *fourier.FFT
	response []complex128
	spectrum []complex128
	work     []float64
}

// newEcho prepares a response. Blocks of block samples follow.
func newEcho(h []float64, block int) *echo {
	n := 1
	for n < len(h)+block {
		n *= 2
	}
	e := &echo{taps: len(h), fft: fourier.NewFFT(n), work: make([]float64, n)}
	copy(e.work, h)
	e.response = e.fft.Coefficients(nil, e.work)
	for i := range e.response {
		e.response[i] /= complex(float64(n), 0)
	}
	e.spectrum = make([]complex128, len(e.response))
	return e
}

// add adds to dst, which is the end of dry, what the room answers to dry; dry holds
// at least taps samples before it.
func (e *echo) add(dst, dry []float64) {
	clear(e.work)
	copy(e.work, dry)
	e.fft.Coefficients(e.spectrum, e.work)
	for i, r := range e.response {
		e.spectrum[i] *= r
	}
	e.fft.Sequence(e.work, e.spectrum)
	for i, v := range e.work[len(dry)-len(dst) : len(dry)] {
		dst[i] += v
	}
}
