package synth

import "math"

// silence is how far a partial decays before it is given up: 100 dB, below half a
// step of 16-bit quantisation for any sound that does not clip.
const silence = 11.5 // time constants

// partial is a damped sinusoid, amp·exp(−t/tau)·sin(2π·freq·t + phase), with t in s
// from the start of its grain.
type partial struct{ freq, amp, phase, tau float64 }

// grain is the sound of one impact: partials that begin together at the time at,
// s, and grow from nothing as 1 − exp(−t/attack).
type grain struct {
	at, attack float64
	parts      []partial
}

// end is the time in s at which the grain has died away.
func (g *grain) end() float64 {
	tau := 0.0
	for _, p := range g.parts {
		tau = max(tau, p.tau)
	}
	return g.at + silence*tau
}

// band is the part of the spectrum that a recorder sampling at rate lets through:
// all below 0.40 of the rate, nothing above 0.45, a straight line between.
func band(freq, rate float64) float64 {
	return min(1, max(0, (0.45-freq/rate)/0.05))
}

// player renders grains at one sampling rate.
type player struct {
	rate    float64 // Hz
	least   float64 // amplitude below which a decaying partial is given up
	scratch []float64
}

// add adds the grain, times factor, to dst, whose sample i is frame first+i.
func (p *player) add(dst []float64, first int64, g *grain, factor float64) {
	from := max(int64(math.Ceil(g.at*p.rate)), first)
	to := min(int64(math.Ceil(g.end()*p.rate)), first+int64(len(dst)))
	if from >= to {
		return
	}
	n := int(to - from)
	if cap(p.scratch) < n {
		p.scratch = make([]float64, n)
	}
	x := p.scratch[:n]
	clear(x)
	t := float64(from)/p.rate - g.at
	for _, part := range g.parts {
		if b := band(part.freq, p.rate); b > 0 {
			part.amp *= b * factor
			part.addTo(x[:part.lasts(n, t, p)], t, p.rate)
		}
	}
	grow(x, t, p.rate, g.attack)
	out := dst[from-first:]
	for i, v := range x {
		out[i] += v
	}
}

// lasts is how many of n samples, the first t s after the grain's start, the partial
// is worth.
func (p partial) lasts(n int, t float64, at *player) int {
	taus := silence
	if at.least > 0 {
		taus = min(taus, math.Log(math.Abs(p.amp)/at.least))
	}
	return max(0, min(n, int(math.Ceil((taus*p.tau-t)*at.rate))))
}

// addTo adds the partial to x, whose first sample lies t s after the grain's start. A
// damped sinusoid is the impulse response of a two-pole
// resonator, so two exact values and a recursion give the rest.
func (p partial) addTo(x []float64, t, rate float64) {
	r := math.Exp(-1 / (p.tau * rate))
	w := 2 * math.Pi * p.freq / rate
	a := p.amp * math.Exp(-t/p.tau)
	phase := p.phase + 2*math.Pi*p.freq*t
	c1, c2 := 2*r*math.Cos(w), r*r
	y1, y2 := a/r*math.Sin(phase-w), a/c2*math.Sin(phase-2*w)
	for i := range x {
		y := c1*y1 - c2*y2
		x[i] += y
		y1, y2 = y, y1
	}
}

// grow applies the attack to x, whose first sample lies t s after the start.
func grow(x []float64, t, rate, attack float64) {
	if attack <= 0 {
		return
	}
	e := math.Exp(-t / attack)
	r := math.Exp(-1 / (attack * rate))
	for i := range x {
		if e < 1e-9 {
			return
		}
		x[i] *= 1 - e
		e *= r
	}
}
