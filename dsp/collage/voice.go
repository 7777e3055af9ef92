package collage

// voice is the sound that one meeting of two parts makes, the same each time but for what
// differs from shot to shot.
type voice struct {
	parts []part
	tilt  float64 // how much of the highs is added
}

type part struct {
	x    []float64
	at   float64 // s after the first
	gain float64
}

// voice makes one of n recorded clicks, seconds long each, the others soon after the first.
func (t *take) voice(r role, n int, seconds float64) voice {
	v := voice{tilt: t.between(-0.5, 0.6)}
	for i := range n {
		x := cut(t.fetch(pick(t.draw, t.lib.sounds[r])), t.rate, t.about(seconds, 0.15))
		x = stretch(x, t.ratio(0.75, 1.35))
		p := part{x: x, gain: 1}
		if i > 0 {
			p.at, p.gain = t.ratio(0.0002, 0.0025), t.gain(-16, -4)
		}
		v.parts = append(v.parts, p)
	}
	return v
}

// shot is v as it sounds this time: peak about 1, its first sample the first of the sound.
func (t *take) shot(v voice) []float64 {
	var y []float64
	pitch := t.about(1, 0.004)
	for i, p := range v.parts {
		x := stretch(p.x, pitch)
		at := int(t.about(p.at, 0.1) * t.rate)
		if need := at + len(x) - len(y); need > 0 {
			y = append(y, make([]float64, need)...)
		}
		gain := p.gain
		if i > 0 {
			gain = t.about(gain, 0.15)
		}
		for k, s := range x {
			y[at+k] += gain * s
		}
	}
	tilt(y, v.tilt+t.between(-0.08, 0.08), t.rate)
	scale := t.gain(-1, 1) / max(peak(y), 1e-9)
	for i := range y {
		y[i] *= scale
	}
	return y
}

// tilt adds so much of what is above about 2.5 kHz to x; less than 0 takes it away.
func tilt(x []float64, amount, rate float64) {
	a := min(1, 2*3.14159*2500/rate)
	low := 0.0
	for i, v := range x {
		low += a * (v - low)
		x[i] = v + amount*(v-low)
	}
}

// soften lets x begin slowly, over so many s.
func soften(x []float64, rate, seconds float64) []float64 {
	n := min(len(x), int(seconds*rate))
	for i := range n {
		x[i] *= float64(i+1) / float64(n+1)
	}
	return x
}
