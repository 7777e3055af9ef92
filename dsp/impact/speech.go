package impact

import "math"

// voice is how somebody speaks.
type voice struct {
	pitch   float64 // Hz
	sings   float64 // share by which the pitch moves
	tones   bool    // each syllable has a tone of its own
	size    float64 // of the throat against the usual: divides the formants
	pace    float64 // syllables a second
	stress  float64 // how much longer and louder stressed syllables are
	opens   float64 // chance of a consonant before a vowel
	shuts   float64 // and after it
	clicks  float64 // chance that a consonant is a click of the tongue
	breathy float64 // level of breath in the voice, dB
}

// voice draws a voice with a rhythm.
func (d dice) voice() voice {
	v := voice{pitch: d.ratio(80, 260), sings: d.in(0.05, 0.3), breathy: d.in(-36, -18), opens: 0.85}
	v.size = math.Pow(150/v.pitch, 0.25) * d.in(0.9, 1.1)
	return d.rhythm(v, d.IntN(4))
}

// rhythm gives a voice one of the rhythms of languages: counted by stresses, by syllables,
// by short beats, or with tones and clicks.
func (d dice) rhythm(v voice, which int) voice {
	switch which {
	case 0:
		v.pace, v.stress, v.shuts = d.in(3.5, 5.5), d.in(0.6, 1.2), 0.6
	case 1:
		v.pace, v.stress, v.shuts = d.in(5, 7.5), d.in(0, 0.25), 0.25
	case 2:
		v.pace, v.stress, v.shuts = d.in(6.5, 9), d.in(0, 0.1), 0.08
	case 3:
		v.pace, v.stress, v.shuts, v.tones = d.in(4, 6), d.in(0, 0.3), 0.15, true
		if d.chance(0.4) {
			v.clicks = d.in(0.1, 0.5)
		}
	}
	return v
}

// vowels are the first three formants of vowels, Hz.
func vowels() [][3]float64 {
	return [][3]float64{
		{730, 1090, 2440}, {530, 1840, 2480}, {270, 2290, 3010}, {570, 840, 2410},
		{300, 870, 2240}, {490, 1350, 1690}, {660, 1720, 2410}, {440, 1020, 2240}, {390, 1990, 2550},
	}
}

// phrase speaks so many syllables. Its level over all is 1.
func (d dice) phrase(v voice, syllables int, rate float64) []float64 {
	var x []float64
	from := vowels()[d.IntN(9)]
	for i := range syllables {
		stressed := 1 + v.stress*d.in(-0.5, 1)
		lasts := stressed / v.pace * d.about(0.15)
		if d.chance(v.opens) {
			x = append(x, d.consonant(v, lasts*0.35, rate)...)
		}
		to := vowels()[d.IntN(9)]
		fall := 1 + v.sings*(0.6-float64(i)/float64(syllables))
		if v.tones {
			fall *= d.in(1-v.sings, 1+v.sings)
		}
		x = append(x, d.vowel(v, from, to, v.pitch*fall, lasts*0.5, rate, stressed)...)
		if from = to; d.chance(v.shuts) {
			x = append(x, d.consonant(v, lasts*0.3, rate)...)
		}
	}
	by(x, 1/max(rms(x), 1e-9))
	return x
}

// vowel glides from one set of formants to another: pulses of the glottis and breath
// through three resonances.
func (d dice) vowel(v voice, from, to [3]float64, pitch, lasts, rate, loud float64) []float64 {
	x := d.glottis(v, pitch, lasts, rate)
	n := int(0.005 * rate)
	var y1, y2 [3]float64
	for at := 0; at < len(x); at += n {
		glide := min(1, 2*float64(at)/float64(len(x)))
		for k := range from {
			f := (from[k] + (to[k]-from[k])*glide) / v.size
			r := math.Exp(-math.Pi * (60 + 0.05*f) / rate)
			a, b := 2*r*math.Cos(2*math.Pi*f/rate), -r*r
			for i := at; i < min(at+n, len(x)); i++ {
				y := (1-a-b)*x[i] + a*y1[k] + b*y2[k]
				x[i], y1[k], y2[k] = y, y, y1[k]
			}
		}
	}
	by(x, 0.3*loud*(0.6+0.4*d.Float64())/max(rms(x), 1e-9))
	return x
}

// glottis returns pulses at a pitch that falls a little, with breath between, and swelling.
func (d dice) glottis(v voice, pitch, lasts, rate float64) []float64 {
	x := make([]float64, int(lasts*rate))
	breath := amplitude(v.breathy)
	next, low := 0.0, 0.0
	turn := d.in(-0.12, 0.08)
	for i := range x {
		u := float64(i) / float64(len(x))
		pulse := 0.0
		if float64(i) >= next {
			pulse = d.about(0.03) * 20
			next += rate / (pitch * (1 + turn*u)) * d.about(0.008)
		}
		low += (pulse - low) * min(1, 2*math.Pi*350/rate)
		x[i] = (low + breath*d.NormFloat64()) * min(1, 10*u, 6*(1-u))
	}
	return x
}

// consonant is a stop, a hiss, a hum or a click of the tongue.
func (d dice) consonant(v voice, lasts, rate float64) []float64 {
	if d.chance(v.clicks) {
		tongue := d.body(matter{900, 5000, 5, 0.004, 0.5})
		click := tongue.ring(nil, hertz(0.0004, rate), rate)
		by(click, d.in(0.5, 2)/max(peak(click), 1e-9))
		return append(make([]float64, int(lasts*0.4*rate)), click...)
	}
	switch d.IntN(3) {
	case 0:
		x := make([]float64, int(lasts*0.6*rate))
		return append(x, d.hiss(d.in(0.006, 0.03), rate, d.in(800, 5000), d.in(0.1, 0.5), fades)...)
	case 1:
		return d.hiss(lasts, rate, d.in(2000, 8000), d.in(0.05, 0.4), swells)
	}
	x := d.glottis(v, v.pitch, lasts, rate)
	lowPass(400, rate).run(x)
	by(x, 0.12/max(rms(x), 1e-9))
	return x
}

// hiss is noise around a frequency.
func (d dice) hiss(lasts, rate, freq, level float64, shape func(float64) float64) []float64 {
	x := d.friction(lasts, rate, shape)
	bell(freq, rate, 1, 24).run(x)
	by(x, level/max(rms(x), 1e-9))
	return x
}

// talk makes people speak through the clip, over everything; level is that of all of it.
func (d dice) talk(voices int, level float64) func(*scene) {
	return func(s *scene) {
		end := float64(s.length()) / s.rate
		for range voices {
			v := s.voice()
			for t := s.in(0, 3); ; t += s.ratio(0.2, 2.5) {
				x := s.phrase(v, s.count(3, 16), s.rate)
				if t+float64(len(x))/s.rate > end {
					break
				}
				t = s.say(x, t, level+s.in(-3, 3))
			}
		}
	}
}

// say lays a phrase on the operator's track, and returns its end.
func (s *scene) say(x []float64, at, level float64) float64 {
	end := at + float64(len(x))/s.rate
	s.add(operator, at, x, amplitude(level))
	s.other("speech", at, end)
	return end
}

// talkBetween makes the operator speak between the firings, and at times into one.
func (d dice) talkBetween(level float64) func(*scene) {
	return func(s *scene) {
		v := s.voice()
		for i, f := range s.truth.Firings {
			over := max(f.Open.Stop, f.Close.Stop) + s.in(0.1, 0.3)
			next := float64(s.length()) / s.rate
			if i+1 < len(s.truth.Firings) {
				next = s.truth.Firings[i+1].Open.Start
			}
			x := s.phrase(v, s.count(2, 8), s.rate)
			if end := over + float64(len(x))/s.rate; end < next-0.15 || end < next+0.2 && s.chance(0.05) {
				s.say(x, over, level+s.in(-3, 3))
			}
		}
	}
}
