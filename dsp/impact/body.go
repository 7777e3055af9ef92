package impact

import "math"

// mode is one way in which a body rings.
type mode struct {
	freq  float64 // Hz
	decay float64 // s until it has fallen to 1/e
	gain  float64 // at a unit of force
}

// body is what an impact makes ring.
type body []mode

// matter says what a body is made of, and how large it is.
type matter struct {
	low, high float64 // of its modes, Hz
	modes     int
	decay     float64 // of the lowest mode, s
	damping   float64 // by which power of frequency the decay shortens
}

// body draws a body: its modes lie evenly in the logarithm of frequency, give or take.
func (d dice) body(m matter) body {
	b := make(body, m.modes)
	step := math.Log(m.high/m.low) / float64(m.modes)
	for i := range b {
		f := m.low * math.Exp(step*(float64(i)+d.in(0.05, 0.95)))
		b[i] = mode{
			freq:  f,
			decay: m.decay * math.Pow(m.low/f, m.damping) * d.ratio(0.6, 1.6),
			gain:  one(d, -1.0, 1) * d.ratio(0.3, 1),
		}
	}
	return b
}

// string draws a body that rings in harmonics, stretched by a share for each.
func (d dice) string(pitch, decay, stretch float64, modes int) body {
	b := make(body, modes)
	for i := range b {
		k := float64(i + 1)
		b[i] = mode{pitch * k * (1 + stretch*k*k), decay / k, d.ratio(0.4, 1) / k}
	}
	return b
}

// scaled returns the body at another loudness.
func (b body) scaled(db float64) body {
	s := make(body, len(b))
	for i, m := range b {
		s[i] = mode{m.freq, m.decay, m.gain * amplitude(db)}
	}
	return s
}

// joined returns one body that rings as all of them.
func joined(parts ...body) body {
	var b body
	for _, p := range parts {
		b = append(b, p...)
	}
	return b
}

// touched returns the body hit at a spot that differs by a share from the usual one.
func (b body) touched(d dice, share float64) body {
	t := make(body, len(b))
	for i, m := range b {
		t[i] = mode{m.freq, m.decay, m.gain * (1 + share*d.NormFloat64())}
	}
	return t
}

// tail returns after how many samples the body has fallen silent, by 80 dB.
func (b body) tail(rate float64) int {
	longest := 0.0
	for _, m := range b {
		longest = max(longest, m.decay)
	}
	return int(9.2*longest*rate) + 1
}

// ring returns in dst, anew when that is short, the body's sound under a force.
func (b body) ring(dst, force []float64, rate float64) []float64 {
	n := len(force) + b.tail(rate)
	if cap(dst) < n {
		dst = make([]float64, n)
	}
	dst = dst[:n]
	clear(dst)
	for _, m := range b {
		if m.freq < 0.46*rate {
			m.ring(dst, force, rate)
		}
	}
	return dst
}

// ring adds the sound of one mode: the speed with which it moves.
func (m mode) ring(dst, force []float64, rate float64) {
	r := math.Exp(-1 / (m.decay * rate))
	c := r * math.Cos(2*math.Pi*m.freq/rate)
	n := min(len(dst), len(force)+int(9.2*m.decay*rate))
	var x1, y1, y2 float64
	for i, x := range force {
		y := x - c*x1 + 2*c*y1 - r*r*y2
		dst[i] += m.gain * y
		x1, y1, y2 = x, y, y1
	}
	a, b := 2*c, -r*r
	for i := len(force); i < n; i++ {
		y := a*y1 + b*y2 - c*x1
		dst[i] += m.gain * y
		x1, y1, y2 = 0, y, y1
	}
}
