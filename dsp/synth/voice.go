package synth

import "math"

// body is what resonates when a part of it is struck.
type body struct {
	modes []partial
	tilt  float64 // exponent of the frequency by which its modes radiate
}

// drawBody draws a metal body; size is 0 for a small one, 1 for a big one, whose
// modes lie lower.
func drawBody(d dice, size float64) body {
	low := d.scale(700, 1800) / (1 + size)
	return drawModes(d, d.count(12, 24), [2]float64{low, d.scale(10000, 18000)}, [2]float64{8, 50})
}

// drawModes draws n modes spread over the range of frequencies in Hz, with quality
// factors from the second range; none rings for longer than 6 ms a time constant.
func drawModes(d dice, n int, freq, q [2]float64) body {
	b := body{make([]partial, n), d.between(0, 0.8)}
	for k := range b.modes {
		f := freq[0] * math.Pow(freq[1]/freq[0], (float64(k)+d.Float64())/float64(n))
		b.modes[k] = partial{freq: f, amp: 1, tau: min(d.scale(q[0], q[1])/(math.Pi*f), 6e-3)}
	}
	return b
}

// contact is how two parts meet.
type contact struct {
	time   float64 // s in touch; a short contact excites high modes
	attack float64 // s the sound takes to grow; 0: time
	rattle float64 // strength of the short noise of loose parts against the modes
	ring   float64 // factor on the modes' decay times, below 1 where a part damps them
	share  float64 // share of the body's modes excited; 0: all
	parts  int     // parts that arrive one after the other, such as blades; 0: one
	spread float64 // relative spread of the modes from place to place along a rubbing; 0: none
}

// arrival is one of several parts coming to rest, s after the first.
type arrival struct{ after, level float64 }

// voice is the sound that one kind of contact makes, each time a little different.
type voice struct {
	attack   float64
	parts    []partial
	arrivals []arrival
	wander   float64 // relative standard deviation of each partial from strike to strike
	spread   float64 // relative standard deviation of each frequency from strike to strike
}

// voice draws the sound of a contact on the body, its loudest 2 ms at level 0 dB.
func (b body) voice(d dice, c contact) voice {
	v := voice{attack: c.attack, wander: d.scale(0.03, 0.2), spread: c.spread}
	if v.attack == 0 {
		v.attack = c.time
	}
	for _, m := range b.modes {
		if c.share > 0 && !d.chance(c.share) {
			continue
		}
		amp := gain(5*d.normal()) * pulseSpectrum(m.freq, c.time) * math.Pow(m.freq/1000, b.tilt)
		v.parts = append(v.parts, partial{m.freq, amp, d.between(0, 2*math.Pi), m.tau * c.ring})
	}
	v.parts = append(v.parts, b.rattle(d, c)...)
	v.arrivals = drawArrivals(d, c.parts)
	toLevel(v.sound(), 0)
	return v
}

// rattle draws the short noise of the parts around a contact.
func (b body) rattle(d dice, c contact) []partial {
	parts := make([]partial, d.count(14, 24))
	for i := range parts {
		f := d.scale(900, 19000)
		amp := c.rattle * gain(4*d.normal()) * pulseSpectrum(f, c.time/2) * math.Pow(f/1000, b.tilt)
		parts[i] = partial{f, amp, d.between(0, 2*math.Pi), d.scale(0.15e-3, 1.2e-3) + c.attack}
	}
	return parts
}

// drawArrivals draws when n parts come to rest: the first at 0, the others within
// 1.2 ms and weaker.
func drawArrivals(d dice, n int) []arrival {
	a := []arrival{{}}
	for range n - 1 {
		a = append(a, arrival{d.scale(0.08e-3, 1.2e-3), d.between(-14, -2)})
	}
	return a
}

// pulseSpectrum is the spectrum of a half-sine pulse of force lasting T s, against
// its value at 0 Hz.
func pulseSpectrum(f, T float64) float64 {
	x := 2 * f * T
	if math.Abs(x-1) < 1e-6 {
		return math.Pi / 4
	}
	return math.Abs(math.Cos(math.Pi*x/2) / (1 - x*x))
}

// sound is the voice at time 0, exactly as drawn; the grains share its partials.
func (v voice) sound() []grain {
	return []grain{{0, v.attack, v.parts}}
}

// strike is the voice sounding at the time t, s, at a level in dB, as it happens to
// sound this once.
func (v voice) strike(d dice, t, level float64) []grain {
	grains := make([]grain, 0, len(v.arrivals))
	for _, a := range v.arrivals {
		g := grain{t + a.after, v.attack, make([]partial, len(v.parts))}
		factor := gain(level + a.level)
		for i, p := range v.parts {
			if v.spread > 0 {
				p.freq *= math.Exp(v.spread * d.normal())
			}
			p.amp *= factor * (1 + v.wander*d.normal())
			p.phase += v.wander * d.normal()
			g.parts[i] = p
		}
		grains = append(grains, g)
	}
	return grains
}

func scaleParts(parts []partial, factor float64) {
	for i := range parts {
		parts[i].amp *= factor
	}
}
