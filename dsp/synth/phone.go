package synth

import (
	"fmt"
	"math"
)

// Phone is the recorder. The zero Phone records one channel at 48 kHz, unchanged
// but for clipping at full scale.
type Phone struct {
	Rate     int     // Hz, 8000 to 192000; 0: 48000
	Bits     int     // of quantisation, 8 to 24; 0: none
	Level    float64 // click level, dBFS; 0: −26; above about −12 the clicks clip
	Mics     []Mic   // one a channel; none: one channel
	Auto     *Auto   // gain control; nil: none
	Gate     *Gate   // noise gate; nil: none
	Losses   []Loss  // in the order of time, not overlapping
	ClockPPM float64 // how much its clock is fast, so that times in the clip come out long, parts in a million
}

// Mic is one channel's microphone.
type Mic struct {
	Gain   float64 // dB
	Delay  float64 // s the sound arrives later than at the first one; 0 to 0.01
	Invert bool    // opposite phase
	Dead   bool    // nothing but zeros
	Hiss   float64 // RMS of its own white noise, dBFS; 0: none
}

// Loss is a buffer that never reached the file.
type Loss struct {
	At, Length float64 // s, by the sound before anything was lost
	Dropped    bool    // left out, so that the clip is shorter; otherwise filled with zeros
}

// Auto is automatic gain control: it follows the peak level, rising with Attack and
// falling with Release, and brings it to Target, turning up by no more than Most.
type Auto struct {
	Target  float64 // dBFS of the peak
	Most    float64 // dB it turns up at most
	Attack  float64 // s
	Release float64 // s
}

// Gate is a noise gate: it cuts to digital zero what stays under the threshold for
// longer than Hold.
type Gate struct {
	Threshold float64 // dBFS of the peak
	Hold      float64 // s
}

// withDefaults fills in what is left open.
func (p Phone) withDefaults() Phone {
	if p.Rate == 0 {
		p.Rate = 48000
	}
	if p.Level == 0 {
		p.Level = -26
	}
	if len(p.Mics) == 0 {
		p.Mics = []Mic{{}}
	}
	return p
}

func (p Phone) check() error {
	if p.Rate != 0 && (p.Rate < 8000 || p.Rate > 192000) {
		return fmt.Errorf("sampling rate %d Hz: 8000 to 192000", p.Rate)
	}
	if p.Bits != 0 && (p.Bits < 8 || p.Bits > 24) {
		return fmt.Errorf("%d bits: 8 to 24, or 0 for none", p.Bits)
	}
	if math.Abs(p.ClockPPM) > 10000 {
		return fmt.Errorf("clock error %g ppm: at most 10000", p.ClockPPM)
	}
	for _, m := range p.Mics {
		if !(m.Delay >= 0 && m.Delay <= 0.01) {
			return fmt.Errorf("microphone delay %g s: 0 to 0.01", m.Delay)
		}
	}
	return checkLosses(p.Losses)
}

func checkLosses(losses []Loss) error {
	end := 0.0
	for _, l := range losses {
		if l.At < end || !(l.Length > 0) {
			return fmt.Errorf("loss of %g s at %g s: losses have a length, an order and no overlap", l.Length, l.At)
		}
		end = l.At + l.Length
	}
	return nil
}

// memory is what the recorder keeps from sample to sample. Copying it keeps a place
// to go on from.
type memory struct {
	shelves [maxShelves]float64
	level   float64 // followed by the gain control
	quiet   int     // frames since the gate last heard something
	started bool
}

// turn is the gain control's factor after a frame whose greatest amplitude is peak.
func (a *Auto) turn(m *memory, peak, rate float64) float64 {
	target, most := gain(a.Target), gain(a.Most)
	if !m.started {
		m.level, m.started = target/most, true
	}
	time := a.Release
	if peak > m.level {
		time = a.Attack
	}
	m.level += (peak - m.level) * (1 - math.Exp(-1/(max(time, 1e-6)*rate)))
	return min(most, target/max(m.level, target/most))
}

// open says whether the gate lets a frame through whose greatest amplitude is peak.
func (g *Gate) open(m *memory, peak, rate float64) bool {
	if peak >= gain(g.Threshold) {
		m.quiet = 0
		return true
	}
	m.quiet++
	return float64(m.quiet) <= g.Hold*rate
}

// quantise rounds to the steps of so many bits and clips at full scale.
func quantise(x float64, bits int) float64 {
	if bits == 0 {
		return min(1, max(-1, x))
	}
	full := float64(int(1) << (bits - 1))
	return min(full-1, max(-full, math.RoundToEven(x*full))) / full
}
