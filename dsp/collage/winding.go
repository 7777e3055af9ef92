package collage

import "earshot/dsp/known"

// winding is how a shutter is cocked and film is moved on.
type winding int

const (
	anyWinding winding = iota
	noWinding
	ratchet
	stroke // of a lever, with a click at its end
	lever  // of the shutter itself: a click or two
)

// winder is one winding as it sounds each time.
type winder struct {
	winding
	pawl, latch voice
	gain        float64
	clicks      int
	gap         float64 // s between clicks
}

func (t *take) winder(w winding) winder {
	if w == anyWinding {
		w = pick(t.draw, []winding{noWinding, ratchet, ratchet, stroke, lever})
	}
	return winder{
		winding: w, pawl: t.voice(click, t.whole(1, 2), t.ratio(0.008, 0.03)), latch: t.voice(click, t.whole(1, 3), 0.03),
		gain: t.gain(-10, 7), clicks: t.whole(8, 20), gap: t.between(0.018, 0.050),
	}
}

// wind cocks the shutter from s on and returns when that is done. In a reflex body it
// opens the blades again.
func (t *take) wind(w winder, b body, s float64) float64 {
	end := s
	switch w.winding {
	case ratchet:
		end = t.ratchet(w, s)
	case stroke:
		w.clicks, w.gain = t.whole(3, 8), w.gain*fromDB(-16)
		end = t.ratchet(w, s)
		end = t.play(t.shot(w.latch), end+t.between(0.02, 0.15), w.gain*fromDB(14)) + 0.03
	case lever:
		for range t.whole(1, 2) {
			end = t.play(t.shot(w.latch), end+t.between(0.05, 0.25), w.gain*fromDB(-3)) + 0.03
		}
	}
	if b.kind == known.Reflex {
		end = t.opening(b.shutter, end+t.between(-0.01, 0.08), 1).Stop + 0.04
	}
	if end > s {
		t.heard("winding", s, end, w.gain)
	}
	return end
}

// ratchet plays its clicks from s on, evenly as a hand can, and a latch.
func (t *take) ratchet(w winder, s float64) float64 {
	n := max(2, w.clicks+t.whole(-1, 1))
	at := s
	for i := range n {
		t.play(t.shot(w.pawl), at, w.gain*t.gain(-2, 2))
		swing := 1 + 0.35*(float64(2*i-n)/float64(n))*(float64(2*i-n)/float64(n)) // slower at both ends
		at += t.about(w.gap*swing, 0.06)
	}
	return t.play(t.shot(w.latch), at, w.gain*t.gain(-3, 3)) + 0.04
}
