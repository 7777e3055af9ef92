package impact

// antiphase makes a second channel of the opposite sign, a little weaker or stronger.
func (d dice) antiphase() func(*take) {
	gain := -d.in(0.7, 1.2)
	return func(tk *take) { tk.channels = [][]float64{tk.x, tk.second(gain, 0)} }
}

// dead makes one channel of two silent, or nearly so.
func (d dice) dead() func(*take) {
	left, hiss := d.chance(0.5), d.chance(0.5)
	return func(tk *take) {
		silent := make([]float64, len(tk.x))
		for i := range silent {
			if hiss {
				silent[i] = 1e-4 * tk.NormFloat64()
			}
		}
		tk.channels = [][]float64{tk.x, silent}
		if left {
			tk.channels = [][]float64{silent, tk.x}
		}
	}
}

// stereo makes a second channel from a microphone at the other end of the phone.
func (d dice) stereo() func(*take) {
	gain, late := d.in(0.4, 1), d.in(0, 0.0004)
	return func(tk *take) { tk.channels = [][]float64{tk.x, tk.second(gain, int(late*tk.rate))} }
}

// second returns the samples times a gain, some samples late.
func (tk *take) second(gain float64, late int) []float64 {
	x := make([]float64, len(tk.x))
	for i := range x[late:] {
		x[late+i] = max(-1, min(gain*tk.x[i], 1))
	}
	return x
}
