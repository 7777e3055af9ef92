package impact

import "math"

// biquad is a filter of two poles and two zeros.
type biquad struct{ b0, b1, b2, a1, a2 float64 }

// run filters x in place. Silence stays silence: numbers too small for their full digits
// would take the processor many times as long.
func (q biquad) run(x []float64) {
	var s1, s2 float64
	for i, v := range x {
		if s1 < 1e-30 && s1 > -1e-30 && s2 < 1e-30 && s2 > -1e-30 {
			s1, s2 = 0, 0
		}
		y := q.b0*v + s1
		s1 = q.b1*v - q.a1*y + s2
		s2 = q.b2*v - q.a2*y
		x[i] = y
	}
}

// bend returns the cosine and the half width that textbook filters are made of.
func bend(freq, rate, q float64) (cos, alpha float64) {
	w := 2 * math.Pi * min(freq, 0.45*rate) / rate
	return math.Cos(w), math.Sin(w) / (2 * q)
}

// highPass lets pass what is above a frequency in Hz.
func highPass(freq, rate float64) biquad {
	c, a := bend(freq, rate, math.Sqrt2/2)
	g := 1 / (1 + a)
	return biquad{(1 + c) / 2 * g, -(1 + c) * g, (1 + c) / 2 * g, -2 * c * g, (1 - a) * g}
}

// lowPass lets pass what is below a frequency in Hz.
func lowPass(freq, rate float64) biquad {
	c, a := bend(freq, rate, math.Sqrt2/2)
	g := 1 / (1 + a)
	return biquad{(1 - c) / 2 * g, (1 - c) * g, (1 - c) / 2 * g, -2 * c * g, (1 - a) * g}
}

// bell raises what is around a frequency in Hz by so many dB.
func bell(freq, rate, q, db float64) biquad {
	c, a := bend(freq, rate, q)
	s := amplitude(db / 2)
	g := 1 / (1 + a/s)
	return biquad{(1 + a*s) * g, -2 * c * g, (1 - a*s) * g, -2 * c * g, (1 - a/s) * g}
}

// thinned returns every k-th sample, after what those cannot carry is filtered away.
func thinned(x []float64, k int) []float64 {
	if k == 1 {
		return x
	}
	half := 16 * k
	taps := make([]float64, 2*half+1)
	for i := range taps {
		t := float64(i-half) / float64(k)
		w := 0.5 + 0.5*math.Cos(math.Pi*float64(i-half)/float64(half+1))
		taps[i] = 0.92 * sinc(0.92*t) * w / float64(k)
	}
	out := make([]float64, len(x)/k)
	for i := range out {
		for j, c := range taps {
			if at := i*k + j - half; at >= 0 && at < len(x) {
				out[i] += c * x[at]
			}
		}
	}
	return out
}

// sinc is sin(πt)/πt.
func sinc(t float64) float64 {
	if t == 0 {
		return 1
	}
	return math.Sin(math.Pi*t) / (math.Pi * t)
}
