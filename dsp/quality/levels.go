package quality

import (
	"math"

	"earshot/dsp/internal/num"
)

// Level is the mean density about a frequency: dB of (full scale)² a Hz.
type Level struct{ Hz, Density float64 }

// Levels is the spectrum for a picture, from 20 Hz on, or from where the window no longer
// spreads what lies below. Where there are more than perOctave bins in an octave, means of
// them are given.
func (s *Spectrum) Levels(perOctave int) []Level {
	const (
		lowest  = 20 // Hz, of hearing
		smeared = 4  // bins
	)
	step := math.Exp2(1 / float64(perOctave))
	var levels []Level
	for k := max(smeared, s.bin(lowest)); k < len(s.Density); {
		end := max(k+1, min(len(s.Density), int(float64(k)*step+0.5)))
		from, to := float64(k)*s.Step, float64(end-1)*s.Step
		levels = append(levels, Level{math.Sqrt(from * to), num.Decibel(math.Max(s.mean(from, to), leastDensity))})
		k = end
	}
	return levels
}

// leastDensity stands for silence: 24 bits are far above it.
const leastDensity = 1e-20
