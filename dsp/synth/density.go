package synth

// NoiseDensity returns the one-sided power density of the noise in the recording,
// in full scale² per Hz, at a frequency from 0 to half the sampling rate in Hz: that
// of Noise, and of rounding to so many bits, taken for white noise of a twelfth of a
// step². Hum, microphones' own noise, gain control and gate have no part in it.
func (r Recording) NoiseDensity() func(freq float64) float64 {
	phone := r.Phone.withDefaults()
	rate := float64(phone.Rate) * (1 + phone.ClockPPM*1e-6)
	rounding := 0.0
	if phone.Bits > 0 {
		step := 2 / float64(int(1)<<phone.Bits)
		rounding = step * step / 12
	}
	if r.Noise.Colour == "" {
		return func(float64) float64 { return 2 * rounding / rate }
	}
	sections, factor := r.Noise.colour(phone.Level, rate)
	return func(freq float64) float64 {
		p := factor * factor
		for _, s := range sections {
			p *= s.power(freq, rate)
		}
		return 2 * (p + rounding) / rate
	}
}
