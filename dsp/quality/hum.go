package quality

import (
	"slices"

	"gonum.org/v1/gonum/floats"

	"earshot/dsp/internal/num"
)

// Hum is what the mains put into a recording. The zero Hum is none.
type Hum struct {
	Frequency float64 // of the mains, 50 or 60 Hz; 0: no hum
	Level     float64 // of all its harmonics together, dBFS
}

const (
	harmonics     = 8
	humStandsOut  = 8.0 // dB a line rises over the noise beside it
	leastHarmonic = 3   // lines that make a hum
)

// findHum finds the mains frequency of which more harmonics stand out of the noise. With equal
// numbers the one with higher lines counts.
func findHum(s *Spectrum) Hum {
	var best Hum
	most, highest := leastHarmonic-1, 0.0
	for _, mains := range []float64{50, 60} {
		lines, sum, power := 0, 0.0, 0.0
		for k := 1; k <= harmonics; k++ {
			rise, p := s.line(mains*float64(k), mains)
			if rise > humStandsOut {
				lines, sum, power = lines+1, sum+rise, power+p
			}
		}
		if lines > most || lines == most && lines >= leastHarmonic && sum > highest {
			most, highest = lines, sum
			best = Hum{mains, num.Decibel(power)}
		}
	}
	return best
}

// line is by how much the spectrum rises at a frequency over what lies beside it, up
// to a third of the distance between lines, in dB, and the line's power.
func (s *Spectrum) line(hz, apart float64) (rise, power float64) {
	const lobe = 2 // bins on each side that a line fills, by the window
	at := s.bin(hz)
	reach := int(apart / 3 / s.Step)
	if reach <= lobe || at+reach >= len(s.Density) || at < reach {
		return 0, 0
	}
	beside := slices.Concat(s.Density[at-reach:at-lobe], s.Density[at+lobe+1:at+reach+1])
	floor := num.Nth(beside, len(beside)/2)
	peak := slices.Max(s.Density[at-1 : at+2])
	return num.Decibel(peak / floor), floats.Sum(s.Density[at-lobe:at+lobe+1]) * s.Step
}
