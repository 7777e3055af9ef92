package impact

import "earshot/dsp/known"

// take is a recording while a phone makes it.
type take struct {
	dice
	x        []float64
	rate     float64
	channels [][]float64
	truth    *known.Truth
}

// step is something a phone does to a take.
type step func(*take)

// record makes the sound of a scene at the phone, and lets the phone record it.
func (s *scene) record(p *plan) known.Recording {
	x := s.atPhone(p)
	s.findNoise(p, x)
	s.judge(p, x)
	if p.snr < quiet {
		s.addNoise(p, x)
	}
	tk := &take{dice: s.dice, x: thinned(x, p.thin), rate: s.rate / float64(p.thin), truth: &s.truth}
	tk.scale(amplitude(p.peak))
	for _, do := range p.phone {
		do(tk)
	}
	tk.survive()
	tk.limit()
	tk.channels = [][]float64{tk.x}
	if p.split != nil {
		p.split(tk)
	}
	return known.Recording{Rate: int(tk.rate), Channels: tk.channels, Coding: p.coding, Truth: s.truth}
}

// atPhone mixes the tracks as the phone hears them.
func (s *scene) atPhone(p *plan) []float64 {
	r := s.dice.room(p.rt[0], p.rt[1])
	x := make([]float64, s.length())
	distances := [places]float64{p.distance, 0, s.in(0.4, 0.9), s.in(1, 2.5)}
	for on, far := range distances {
		track := s.tracks[on]
		if place(on) == shutters {
			track = sum(track, s.tracks[table])
		}
		if len(track) > 0 && place(on) != table {
			convolve(x, track, r.response(s.dice, r.near(s.dice, far), s.rate))
		}
	}
	for _, q := range p.mic {
		q.run(x)
	}
	return x
}

// sum returns two tracks together.
func sum(a, b []float64) []float64 {
	if len(a) < len(b) {
		a, b = b, a
	}
	both := append([]float64(nil), a...)
	for i, v := range b {
		both[i] += v
	}
	return both
}

// scale brings the peak to a magnitude.
func (tk *take) scale(to float64) {
	if p := peak(tk.x); p > 0 {
		by(tk.x, to/p)
	}
}

// limit holds what is beyond full scale at it.
func (tk *take) limit() {
	for i, v := range tk.x {
		tk.x[i] = max(-1, min(v, 1))
	}
}

// by multiplies samples.
func by(x []float64, factor float64) {
	for i := range x {
		x[i] *= factor
	}
}

// quiet is an SNR in dB from which on no noise is added.
const quiet = 200

// addNoise adds noise at the level that the plan's SNR asks for.
func (s *scene) addNoise(p *plan, x []float64) {
	n := p.noise.sound(s.dice, s.rate, len(x))
	for _, q := range p.mic {
		q.run(n)
	}
	high := above1kHz(n, s.rate, 0, min(len(n), int(4*s.rate)))
	factor := amplitude(s.floor - high)
	for i, v := range n {
		x[i] += factor * v
	}
}
