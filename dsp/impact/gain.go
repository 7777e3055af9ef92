package impact

import (
	"math"
	"slices"
)

// automatic draws an automatic gain: it falls fast after what is loud and rises slowly.
func (d dice) automatic() step {
	attack, release := d.ratio(0.001, 0.03), d.ratio(0.2, 3)
	aim, most := d.in(-24, -10), d.in(8, 26)
	return func(tk *take) {
		up, down := math.Exp(-1/(attack*tk.rate)), math.Exp(-1/(release*tk.rate))
		level := amplitude(aim)
		for i, v := range tk.x {
			if a := math.Abs(v); a > level {
				level = up*level + (1-up)*a
			} else {
				level = down*level + (1-down)*a
			}
			tk.x[i] = v * min(amplitude(most), amplitude(aim)/max(level, 1e-6))
		}
	}
}

// clips draws a gain that is too high, with a soft or a hard limit.
func (d dice) clips() step {
	gain, soft := d.in(5, 22), d.chance(0.4)
	return func(tk *take) {
		tk.scale(amplitude(gain))
		for i, v := range tk.x {
			if soft {
				v = math.Tanh(v)
			}
			tk.x[i] = max(-1, min(v, 1))
		}
	}
}

// envelope returns the root mean square of each stretch of n samples.
func envelope(x []float64, n int) []float64 {
	e := make([]float64, len(x)/n+1)
	for i := range e {
		e[i] = rms(x[min(i*n, len(x)):min((i+1)*n, len(x))])
	}
	return e
}

// usual returns the root mean square of the quieter part of what is heard.
func usual(x []float64, rate float64) float64 {
	e := envelope(x, int(0.02*rate))
	slices.Sort(e)
	return e[len(e)/4]
}

// gate draws a gate that closes some time after what is loud, by so many dB; beyond 100 it
// cuts to zero. It opens within so many s, and looks ahead as long or not at all.
func (d dice) gate(depth, opens float64) step {
	over, hangs := d.in(8, 15), d.ratio(0.08, 0.6)
	ahead := 0.0
	if d.chance(0.5) {
		ahead = opens + 0.002
	}
	return func(tk *take) {
		closed := amplitude(-depth)
		if depth > 100 {
			closed = 0
		}
		n := int(0.002 * tk.rate)
		levels := envelope(tk.x, n)
		threshold := usual(tk.x, tk.rate) * amplitude(over)
		gain, since := closed, math.Inf(1)
		open, shut := 1/max(1, opens*tk.rate), 1/(0.03*tk.rate)
		for i := range tk.x {
			if levels[min((i+int(ahead*tk.rate))/n, len(levels)-1)] > threshold {
				since = 0
			}
			if since += 1 / tk.rate; since < hangs {
				gain = min(1, gain+open)
			} else {
				gain = max(closed, gain-shut)
			}
			tk.x[i] *= gain
		}
	}
}
