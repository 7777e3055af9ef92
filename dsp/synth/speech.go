package synth

import "math"

// vowels are the first three formants of six vowels, Hz, of men's voices.
func vowels() [6][3]float64 {
	return [...][3]float64{
		{270, 2290, 3010}, {530, 1840, 2480}, {660, 1720, 2410},
		{730, 1090, 2440}, {300, 870, 2240}, {490, 1350, 1690},
	}
}

// speaker is a voice: its pitch in Hz, its formants against a man's, and the length
// of a syllable, s.
type speaker struct {
	pitch, tract, pace float64
}

// speech draws one to eight syllables: voiced ones of pulses through formants, with
// plosives and hisses between.
func speech(d dice) passage {
	s := speaker{d.scale(85, 230), d.between(0.95, 1.2), d.between(0.12, 0.25)}
	syllables := d.count(1, 8)
	return passage{float64(syllables) * s.pace * 1.3, func(d dice) []grain {
		var grains []grain
		for k := range syllables {
			t := float64(k) * s.pace * 1.3
			grains = append(grains, s.consonant(d, t)...)
			grains = append(grains, s.vowel(d, t+0.25*s.pace, d.between(0.6, 1)*s.pace)...)
		}
		return grains
	}}
}

// vowel is a syllable's voiced part: its pitch falls and its formants glide.
func (s speaker) vowel(d dice, at, length float64) []grain {
	all := vowels()
	from, to := all[d.IntN(len(all))], all[d.IntN(len(all))]
	pitch := s.pitch * d.between(0.85, 1.25)
	loud := gain(4 * d.normal())
	var grains []grain
	for t := 0.0; t < length; t += d.near(1/(pitch*(1-0.15*t/length)), 0.01) {
		u := t / length
		amp := loud * math.Sin(math.Pi*math.Min(1, 0.1+0.95*u))
		parts := make([]partial, 0, 6)
		for k := range from {
			f := s.tract * (from[k] + (to[k]-from[k])*u)
			wide := 50 + 0.04*f // Hz
			parts = append(parts, partial{f, amp / float64(1+2*k), 0, 1 / (math.Pi * wide)})
		}
		parts = append(parts, partial{pitch, 0.5 * amp, 0, 0.8 / pitch})
		parts = append(parts, partial{s.tract * 3500, 0.05 * amp, 0, 2e-3}, partial{s.tract * 4500, 0.03 * amp, 0, 1.5e-3})
		grains = append(grains, grain{at + t, 0.3e-3, parts})
	}
	return grains
}

// consonant is what comes before a vowel: nothing, a burst or a hiss.
func (s speaker) consonant(d dice, at float64) []grain {
	noise := contact{time: 30e-6, attack: 0.2e-3, rattle: 2, ring: 1, spread: 0.2}
	v := body{}.voice(d, noise)
	switch d.IntN(3) {
	case 0:
		return v.strike(d, at+0.15*s.pace, d.between(-20, -8))
	case 1:
		return rustle(d, v, rustling{at, at + 0.3*s.pace, 2500, d.between(-34, -24)})
	}
	return nil
}

// music draws a bar of chords on one instrument.
func music(d dice) passage {
	beat := d.between(0.25, 0.6)
	beats := d.count(2, 6)
	attack, tau := d.scale(1e-3, 0.05), d.scale(0.06, 0.4)
	key := d.count(-12, 12)
	return passage{float64(beats)*beat + silence*tau - ringing, func(d dice) []grain {
		var grains []grain
		for k := range beats {
			for range d.count(1, 3) {
				pitch := 220 * math.Exp2(float64(key+scaleStep(d))/12)
				grains = append(grains, note(d, float64(k)*beat, pitch, [2]float64{attack, tau}))
			}
		}
		return grains
	}}
}

// scaleStep draws a tone of a major scale over two octaves, in semitones.
func scaleStep(d dice) int {
	steps := [...]int{0, 2, 4, 5, 7, 9, 11}
	return steps[d.IntN(len(steps))] + 12*d.IntN(2)
}

// note is one tone with harmonics, the higher ones weaker and shorter; shape is
// attack and decay, s.
func note(d dice, at, pitch float64, shape [2]float64) grain {
	parts := make([]partial, 0, 10)
	for h := 1.0; h <= 10 && h*pitch < 12000; h++ {
		parts = append(parts, partial{h * pitch, math.Pow(h, -1.3) * gain(2*d.normal()), d.between(0, 2*math.Pi), shape[1] / math.Sqrt(h)})
	}
	return grain{at, shape[0], parts}
}
