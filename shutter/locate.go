package shutter

import "earshot/dsp"

// softLead is the lead of a start over its end stop, in s, from which it is a
// movement of its own and not just how the stop's sound begins.
const softLead = 0.0015

// buried is how much more than the start of one movement stands out of the noise
// that of another must do for its absence to mean something, dB: the two strokes
// of a shutter are about as loud as each other (common practice, no source).
const buried = 3

// locate times the openings and the closings of a set, and the openings that were
// never closed, which come after the others.
func (r *room) locate(src dsp.Source, set []pair, hung []int) (opens, closes *dsp.Movements, err error) {
	var o, c []float64
	for i := range set {
		o = append(o, r.h.Samples(r.sounds[set[i].open].at))
		c = append(c, r.h.Samples(r.sounds[set[i].close].at))
	}
	for _, i := range hung {
		o = append(o, r.h.Samples(r.sounds[i].at))
	}
	if opens, err = dsp.LocateMovements(src, r.h.Channel, o); err != nil {
		return nil, nil, err
	}
	closes, err = dsp.LocateMovements(src, r.h.Channel, c)
	return opens, closes, err
}

// likeEnds chooses the edge by which both ends are timed. It is the start of the
// movements, unless the start of the one is soft and the noise would hide one
// like it in the other; then it is the end stop, which is always heard.
func (r *room) likeEnds(opens, closes *dsp.Movements) (edge Edge, open, close []float64) {
	soft := r.h.Samples(softLead)
	hidden := func(m, other *dsp.Movements) bool {
		return m.Lead > soft && other.Lead == 0 && other.Depth < m.Drop+buried
	}
	if hidden(opens, closes) || hidden(closes, opens) {
		return EdgeStop, opens.Stop, closes.Stop
	}
	return EdgeStart, opens.Start, closes.Start
}
