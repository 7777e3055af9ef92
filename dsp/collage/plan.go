package collage

import (
	"math"
	"slices"

	"earshot/dsp/known"
)

// shot is one firing as the shutter means to do it.
type shot struct {
	mark     string
	nominal  float64
	stops    float64 // by which it is off its mark; + is slow
	pause    float64 // s for which the escapement stands still
	lazy     float64 // times that blades take as long as they should
	held     float64 // s that a hand holds it open
	opens    bool    // bounces open after closing
	stays    bool    // open
	first    bool    // at its mark
	symptoms []string
}

// duration is how long s stays open, s.
func (s shot) duration() float64 { return s.nominal*math.Pow(2, s.stops) + s.pause + s.held }

// healthy are the shots of a shutter without a fault: off its marks alike at all speeds,
// a little differently at each, and with some spread.
func (t *take) healthy(told []known.Setting, off float64) []shot {
	var out []shot
	alike := t.between(-off, off)
	spread := t.ratio(0.004, 0.045)
	for _, set := range told {
		own := alike + t.NormFloat64()*0.04
		for i := range set.Count {
			out = append(out, shot{mark: set.Mark, nominal: set.Nominal, stops: own + t.NormFloat64()*spread, lazy: 1, first: i == 0})
		}
	}
	return out
}

// within keeps lazy blades from running against their stop after they close again. Blades
// that aren't visibly lazy at a fast speed don't show it.
func (s shot) within(m shutter) shot {
	most := 0.7 * s.duration() / max(m.travel, 1e-3)
	if s.lazy <= most {
		return s
	}
	s.lazy = max(1, most)
	if s.lazy < 1.5 {
		s.symptoms = slices.DeleteFunc(slices.Clone(s.symptoms), func(name string) bool { return name == "lazy blades" })
	}
	return s
}

// suffers notes a fault that shows in s.
func (s *shot) suffers(symptom string) { s.symptoms = append(s.symptoms, symptom) }
