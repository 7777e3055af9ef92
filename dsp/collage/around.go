package collage

// speech plays words in a language from s on, seconds at most, and returns when they end.
func (t *take) speech(language string, s, seconds, gain float64) float64 {
	said := pick(t.draw, t.lib.sounds[talk+role(language)])
	x := said.x
	if n := int(seconds * said.rate); n < len(x) {
		from := t.IntN(len(x) - n)
		x = fade(x[from:from+n], said.rate)
	}
	x = resample(x, said.rate, t.rate)
	begin := t.play(x, s, gain/max(peak(x), 1e-9))
	end := begin + float64(len(x))/t.rate
	t.heard("speech", begin, end, gain)
	return end
}

// fade is x with its first and last 20 ms faded.
func fade(x []float64, rate float64) []float64 {
	y := append([]float64(nil), x...)
	n := min(len(y)/2, int(0.02*rate))
	for i := range n {
		y[i] *= float64(i) / float64(n)
		y[len(y)-1-i] *= float64(i) / float64(n)
	}
	return y
}

// clock ticks from the beginning to the end. Every other beat comes late by limp of a
// beat.
func (t *take) clock(beat, limp, gain float64) {
	tick, tock := t.voice(click, t.whole(1, 2), t.ratio(0.01, 0.03)), t.voice(click, t.whole(1, 2), t.ratio(0.01, 0.03))
	if t.chance(0.5) {
		tock = tick
	}
	first := t.between(0, beat)
	for i := 0; ; i++ {
		at := first + beat*t.slow*(float64(i)+limp*float64(i%2))
		if at > t.seconds()-0.1 {
			return
		}
		v := tick
		if i%2 == 1 {
			v = tock
		}
		at = t.play(t.shot(v), at, gain*t.gain(-0.5, 0.5))
		t.heard("clock", at, at+0.02, gain)
	}
}

// now and then plays something, all over the clip.
func (t *take) nowAndThen(kind string, r role, every, gain float64) {
	for at := t.between(0, every); at < t.seconds()-2; {
		g := gain * t.gain(-6, 6)
		end := t.recording(r, at, g)
		t.heard(kind, at, end, g)
		at = end + t.ratio(every/4, every*2)
	}
}

// under goes on with recordings of a role from the beginning to the end.
func (t *take) under(kind string, r role, gain float64) {
	x := t.fetch(pick(t.draw, t.lib.sounds[r]))
	gain /= max(peak(x), 1e-9)
	n := len(t.tape)
	for at := 0; at < n; at += len(x) {
		t.play(x[:min(len(x), n-at)], float64(at)/t.rate, gain)
	}
	t.heard(kind, 0, t.seconds(), gain*peak(x))
}

// typed plays strokes of keys from s to end, at so many words a minute.
func (t *take) typed(s, end, words, gain float64) {
	start := s
	for s < end {
		g := gain * t.gain(-4, 3)
		t.recording(typing, s, g)
		s += t.ratio(0.4, 2.2) * 12 / words
		if t.chance(0.12) {
			s += t.ratio(0.2, 1.5)
		}
	}
	t.heard("typing", start, min(s, end), gain)
}
