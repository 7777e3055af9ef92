package quality

import (
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat"

	"earshot/dsp"
	"earshot/dsp/internal/num"
)

// Channel describes one channel by the loud sounds. Without loud sounds nothing is known of
// it.
type Channel struct {
	Level    float64 // against the loudest channel, dB; −Inf for nothing but zeros
	Dead     bool    // it holds nothing, or next to nothing
	Opposite bool    // its phase is opposite to that of the first
}

const (
	deadBelow  = -30    // dB: microphones of one telephone differ by less
	mostDelay  = 0.0005 // s between the microphones of a telephone: 17 cm of air
	oppositeAt = 0.6    // correlation, of 1, from which phase is told
	ofOther    = 0.9    // of it that the best agreement otherwise may reach
)

// sides compares the channels of loud sounds.
type sides struct {
	dsp.Format
	energy []float64
	cross  [][]float64 // of each channel with the first, by delay
}

func newSides(f dsp.Format) *sides {
	s := &sides{Format: f, energy: make([]float64, f.Channels), cross: make([][]float64, f.Channels)}
	for c := range s.cross {
		s.cross[c] = make([]float64, 2*s.reach()+1)
	}
	return s
}

func (s *sides) reach() int { return int(mostDelay * float64(s.Rate)) }

// add takes in the interleaved frames of a sound.
func (s *sides) add(frames []float64) {
	first := centred(channelOf(frames, 0, s.Channels))
	for c := range s.Channels {
		x := centred(channelOf(frames, c, s.Channels))
		s.energy[c] += floats.Dot(x, x)
		for i := range s.cross[c] {
			if c > 0 {
				s.cross[c][i] += product(first, x, i-s.reach())
			}
		}
	}
}

// product is the sum of a[i]·b[i+delay].
func product(a, b []float64, delay int) float64 {
	if delay < 0 {
		a, b, delay = b, a, -delay
	}
	n := max(0, len(b)-delay)
	return floats.Dot(a[:n], b[len(b)-n:])
}

// centred is x without its mean, in place.
func centred(x []float64) []float64 {
	floats.AddConst(-stat.Mean(x, nil), x)
	return x
}

// channels tells what each is worth; nil where there was no sound to tell it by.
func (s *sides) channels() []Channel {
	most := 0.0
	for _, e := range s.energy {
		most = math.Max(most, e)
	}
	if most == 0 {
		return nil
	}
	all := make([]Channel, s.Channels)
	for c := range all {
		level := num.Decibel(s.energy[c] / most)
		all[c] = Channel{Level: level, Dead: level < deadBelow}
		all[c].Opposite = c > 0 && !all[c].Dead && all[0].Level >= deadBelow && s.opposes(c)
	}
	return all
}

// opposes tells whether a channel agrees best with the first when turned over.
func (s *sides) opposes(c int) bool {
	highest, lowest := 0.0, 0.0
	for _, v := range s.cross[c] {
		highest, lowest = math.Max(highest, v), math.Min(lowest, v)
	}
	whole := math.Sqrt(s.energy[0] * s.energy[c])
	return -lowest > oppositeAt*whole && highest < -lowest*ofOther
}
