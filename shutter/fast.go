package shutter

import (
	"fmt"

	"earshot/dsp"
)

// overlaidGain is by how many dB two movements in one sound must leave less of it
// unexplained than one does, to be there. Where only one is, the other explains
// nothing as loud as it should be, and both leave 2 dB more than the one or worse;
// where two are, they leave 0.6 to 4 dB less, the rest being what differs from shot
// to shot.
const overlaidGain = 0.5

// fast looks for the firings so fast that opening and closing are one sound, by
// what the slower ones of the set, in time order, have taught: sounds like both,
// in which one opening followed by one closing is found. It returns them, each a
// pair of one sound with itself, and with their times.
func (r *room) fast(src dsp.Source, set []pair) (pairs []pair, firings []Firing, err error) {
	if len(set) == 0 || r.kind == FocalPlane {
		return nil, nil, nil
	}
	candidates := r.both(r.voice(set), set)
	if len(candidates) == 0 {
		return nil, nil, nil
	}
	opens, closes, err := r.movements(src, set[:min(len(set), together)])
	if err != nil {
		return nil, nil, err
	}
	for _, i := range candidates {
		o, ok, err := dsp.Overlay(src, r.h.Channel, opens, closes, r.h.Samples(r.sounds[i].at))
		if err != nil {
			return nil, nil, fmt.Errorf("a fast firing: %w", err)
		}
		if ok && o.Gain >= overlaidGain {
			pairs = append(pairs, pair{open: i, close: i, span: r.h.Seconds(o.Second - o.First)})
			firings = append(firings, Firing{Edge: EdgeStart, Closed: true, U: r.h.Seconds(o.U), Common: r.h.Seconds(o.Bias),
				Open: r.h.Seconds(o.First), Close: r.h.Seconds(o.Second)})
		}
	}
	return pairs, firings, nil
}

// both lists the sounds that come by themselves and are like openings and closings
// of the set, or are like either and in no firing of it.
func (r *room) both(v *voice, set []pair) []int {
	taken := map[int]bool{}
	for i := range set {
		taken[set[i].open], taken[set[i].close] = true, true
	}
	var all []int
	for i := range r.sounds {
		if r.sounds[i].surprise() <= 0 || !r.alone(v, i) {
			continue
		}
		open, close := v.open.weight(i) > 0, v.close.weight(i) > 0
		if open && close || (open || close) && !taken[i] {
			all = append(all, i)
		}
	}
	return all
}
