package quality

import (
	"earshot/dsp"
	"earshot/dsp/internal/num"
)

// Muted is what is digitally silent in a clip that otherwise is not. Silence before the
// first sample and after the last that is not zero is none: recorders and codecs pad.
type Muted struct {
	Gated bool    // by a noise gate, which cuts what is quiet; otherwise by lost samples
	Gaps  int     // stretches
	Time  float64 // s, all together
}

// A gate cuts pauses, which are long, and most of them, or chatters where the noise comes
// near its threshold; buffers are lost now and then and are short (common practice, no
// source).
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
