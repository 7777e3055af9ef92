package sitting

import (
	"math"

	"earshot/dsp"
	"earshot/dsp/quality"
	"earshot/report"
)

// soundOf is what was measured of a clip's sound, in the record's terms.
func soundOf(h *dsp.Hearing, q *quality.Quality) report.Sound {
	s := report.Sound{
		Transients: len(h.Transients), Noise: known(h.Noise), Peak: known(20 * math.Log10(h.Peak)), Clipped: h.Clipped,
		Lost: q.Muted.Time, Gated: q.Muted.Gated, Floor: known(q.Floor), Smear: q.Smear(), Recovery: q.Recovery,
		Click: known(q.Click), ClickOver: known(q.Click - q.Floor),
	}
	if q.Loud != nil {
		s.Bandwidth = known(q.Bandwidth)
	}
	if q.Hum.Frequency > 0 {
		s.Hum = &report.Hum{Frequency: q.Hum.Frequency, Level: q.Hum.Level}
	}
	for i, c := range q.Channels {
		if c.Dead {
			s.Dead = append(s.Dead, i)
		}
		if c.Opposite {
			s.Opposite = append(s.Opposite, i)
		}
	}
	return s
}

// known is a level, nil for what is not known and for that of silence.
func known(level float64) *float64 {
	if math.IsNaN(level) || math.IsInf(level, 0) {
		return nil
	}
	return &level
}
