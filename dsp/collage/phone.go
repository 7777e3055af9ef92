package collage

import (
	"math"

	"earshot/dsp/known"
)

// phone is what records, and what it does of itself.
type phone struct {
	rate     int // Hz; 0: drawn
	channels channels
	coding   known.Coding
	agc      float64 // dB that gain may rise; 0: none
	suppress float64 // dB that noise is suppressed by; 0: not
	gate     gate
	lost     int     // buffers
	clips    float64 // dB over full scale of the loudest sound
	hum      float64 // dB over the noise; 0: none
	skips    float64 // s of quiet after which it stops
	live     bool    // noise that isn't steady
	exact    bool    // nothing is drawn
}

type channels int

const (
	mono channels = iota
	stereo
	antiphase
	dead // one of two
)

type gate int

const (
	noGate gate = iota
	gateDown
	gateToZero
)

// drawn fills in what a kind leaves open: an ordinary phone.
func (p phone) drawn(d draw) phone {
	if p.rate == 0 {
		p.rate = pick(d, []int{16000, 44100, 44100, 44100, 48000, 48000, 48000, 48000, 48000, 96000})
	}
	if p.skips > 0 {
		p.skips *= d.ratio(0.4, 2)
	}
	if p.exact {
		return p
	}
	if p.channels == mono && d.chance(0.25) {
		p.channels = stereo
	}
	if p.coding.Encoder == "" && p.rate > 16000 && p.rate < 96000 && d.chance(0.3) {
		p.coding = known.Coding{Encoder: "aac", Suffix: ".m4a", Kbits: pick(d, []int{64, 96, 128, 192})}
	}
	if p.agc == 0 && d.chance(0.15) {
		p.agc = d.between(3, 12)
	}
	if p.hum == 0 && d.chance(0.2) {
		p.hum = d.between(3, 20)
	}
	return p
}

// hum adds that of the mains, with harmonics, so many dB over the noise.
func (t *take) hum(p phone, noise float64) {
	if p.hum == 0 {
		return
	}
	mains := pick(t.draw, []float64{50, 60}) * t.about(1, 0.0005)
	for k := 1; k <= 7; k++ {
		gain := noise * fromDB(p.hum) / float64(k) * t.between(0.2, 1)
		turn, phase := 2*math.Pi*mains*float64(k)/t.rate, 2*math.Pi*t.Float64()
		re, im := math.Cos(turn), math.Sin(turn)
		c, s := gain*math.Cos(phase), gain*math.Sin(phase)
		for i := range t.tape {
			t.tape[i] += s
			c, s = c*re-s*im, c*im+s*re
		}
	}
}

// through is all that the phone does to the tape, which has that much noise. What it
// spoils is no longer plain.
func (t *take) through(p phone, noise float64, plain []bool) {
	if p.suppress > 0 {
		t.suppress(p.suppress)
	}
	if p.gate != noGate {
		t.gated(p.gate, noise, plain)
	}
	if p.agc > 0 {
		t.agc(p.agc)
	}
	loudest := t.gain(-16, -0.5)
	if p.clips > 0 {
		loudest = fromDB(p.clips)
	}
	scale := loudest / max(peak(t.tape), 1e-9)
	for i, v := range t.tape {
		t.tape[i] = max(-0.999, min(0.999, scale*v))
	}
	t.lose(p.lost, plain)
}

// agc turns gain up where it is quiet, by most dB at most. It turns it down a few ms ahead
// of what is loud, and up again within 0.3 to 4 s.
func (t *take) agc(most float64) {
	level, loud := 0.0, peak(t.tape)
	rise := math.Exp(-1 / (t.ratio(0.3, 4) * t.rate))
	attack := t.ratio(0.0005, 0.003)
	fall, ahead := math.Exp(-1/(attack*t.rate)), int(3*attack*t.rate)
	floor := loud * fromDB(-most)
	for i, v := range t.tape {
		a := math.Abs(t.tape[min(i+ahead, len(t.tape)-1)])
		if a > level {
			level = fall*level + (1-fall)*a
		} else {
			level *= rise
		}
		t.tape[i] = max(-2*loud, min(2*loud, v*loud/max(level, floor)))
	}
}

// gated closes a gate some time after nothing loud was heard. It opens a little ahead.
func (t *take) gated(g gate, noise float64, plain []bool) {
	limit := noise * t.ratio(3, 8)
	ahead, hold := int(t.between(0.001, 0.004)*t.rate), int(t.ratio(0.04, 0.4)*t.rate)
	fades := t.ratio(0.004, 0.03) * t.rate
	shut := 0.0
	if g == gateDown {
		shut = t.gain(-35, -15)
	}
	open := make([]bool, len(t.tape))
	last := -hold - ahead
	for i := range open {
		if i+ahead < len(open) && math.Abs(t.tape[i+ahead]) > limit {
			last = i + ahead
		}
		open[i] = i < last+hold
	}
	gain := shut
	for i, v := range t.tape {
		if open[i] {
			gain = 1
		} else {
			gain = max(shut, gain-1/fades)
		}
		t.tape[i] = v * gain
	}
	for i, f := range t.firings {
		plain[i] = plain[i] && t.passed(open, f.Open.Stop) && t.passed(open, f.Close.Stop)
	}
}

// passed tells whether the gate is open at s.
func (t *take) passed(open []bool, s float64) bool {
	return open[min(len(open)-1, int(math.Round(s*t.rate))+1)]
}

// lose fills n buffers with zeros.
func (t *take) lose(n int, plain []bool) {
	for range n {
		s, length := t.between(0.5, t.seconds()-0.5), t.ratio(0.005, 0.08)
		clear(t.tape[int(s*t.rate):int((s+length)*t.rate)])
		for i, f := range t.firings {
			if s < f.Close.Stop+beside && s+length > f.Open.Start-beside {
				plain[i] = false
			}
		}
	}
}

// channels are what the file holds.
func (t *take) channels(p phone) [][]float64 {
	if p.channels == mono {
		return [][]float64{t.tape}
	}
	second := make([]float64, len(t.tape))
	gain := t.gain(-6, 0)
	switch p.channels {
	case antiphase:
		gain = -t.gain(-1, 0)
	case dead:
		gain = 0
	}
	hiss := t.gain(-75, -60)
	for i, v := range t.tape {
		second[i] = max(-0.999, min(0.999, gain*v+hiss*(2*t.Float64()-1)))
	}
	if t.chance(0.5) {
		return [][]float64{second, t.tape}
	}
	return [][]float64{t.tape, second}
}
