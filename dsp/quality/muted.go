package quality

import (
	"earshot/dsp"
	"earshot/dsp/internal/num"
)

// Muted is the digital silence in a clip that also holds sound. Zeros before the first and
// after the last sample that is not zero do not count, since recorders and codecs pad.
type Muted struct {
	Gated bool    // by a noise gate, which cuts what is quiet; otherwise by lost samples
	Gaps  int     // stretches
	Time  float64 // s, all together
}

// A gate mutes most pauses, which are long, or chatters where the noise is near its threshold.
// Lost buffers are rare and short (common practice, no source).
const (
	gatedLength = 0.2 // s of the usual gap
	gatedShare  = 0.2 // of the clip
	gatedRate   = 1.0 // gaps a second
)

// muted sums up the gaps.
func muted(h *dsp.Hearing) Muted {
	var m Muted
	var lengths []float64
	for _, g := range h.Gaps {
		if g.Start > 0 && g.End < h.Frames {
			length := h.Seconds(float64(g.End - g.Start))
			lengths, m.Time = append(lengths, length), m.Time+length
		}
	}
	if m.Gaps = len(lengths); m.Gaps == 0 {
		return m
	}
	m.Gated = num.Nth(lengths, len(lengths)/2) > gatedLength || m.Time > gatedShare*h.Duration() || float64(m.Gaps) > gatedRate*h.Duration()
	return m
}
