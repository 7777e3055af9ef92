package impact

import (
	"math"

	"gonum.org/v1/gonum/dsp/fourier"
)

// suppresses draws a suppression of noise in the spectrum, which leaves a floor.
func (d dice) suppresses() step {
	s := suppressor{floor: amplitude(d.in(-26, -8)), over: d.in(1, 3), keeps: d.in(0, 0.85), learns: d.in(0.5, 2)}
	frame := d.in(0.012, 0.032)
	return func(tk *take) {
		s.run(tk.x, max(1, int(frame*tk.rate/32+0.5))*32, tk.rate)
	}
}

// suppressor takes from each line of a spectrum what noise has there.
type suppressor struct {
	floor  float64 // least gain
	over   float64 // how many times the noise it takes
	keeps  float64 // share of the last gain that stays
	learns float64 // s over which it learns the noise
}

// run suppresses the noise in x by frames of n samples that overlap by half.
func (s suppressor) run(x []float64, n int, rate float64) {
	fft := fourier.NewFFT(n)
	window := make([]float64, n)
	for i := range window {
		window[i] = math.Sin(math.Pi * (float64(i) + 0.5) / float64(n))
	}
	frame, lines := make([]float64, n), make([]complex128, n/2+1)
	noise, gain := make([]float64, n/2+1), make([]float64, n/2+1)
	out := make([]float64, len(x)+n)
	rise := math.Pow(10, float64(n)/2/rate/s.learns)
	for at := 0; at+n <= len(x); at += n / 2 {
		for i := range frame {
			frame[i] = x[at+i] * window[i]
		}
		fft.Coefficients(lines, frame)
		s.weigh(lines, noise, gain, rise)
		fft.Sequence(frame, lines)
		for i, v := range frame {
			out[at+i] += v * window[i] / float64(n)
		}
	}
	copy(x, out)
}

// weigh follows the noise and scales the lines.
func (s suppressor) weigh(lines []complex128, noise, gain []float64, rise float64) {
	for i, c := range lines {
		power := real(c)*real(c) + imag(c)*imag(c)
		if noise[i] == 0 {
			noise[i] = power
		}
		noise[i] = min(noise[i]*rise, 0.9*noise[i]+0.1*power)
		g := max(s.floor, 1-s.over*noise[i]*2/max(power, 1e-20))
		gain[i] = max(g, s.keeps*gain[i])
		lines[i] = c * complex(gain[i], 0)
	}
}
