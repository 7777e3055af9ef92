package shutter

import (
	"math"

	"earshot/dsp"
	"earshot/dsp/align"
)

// softest is how far below its loudest part a movement may start, in dB, and certain
// how much more must have been audible for the absence of a start to mean that
// there is none (common practice, no source: blades start up to 25 dB below their
// end stop). The strokes of opening and closing are alike, so that where the one
// starts softly the other most likely does too, unheard.
const (
	softest = 25
	certain = 3
)

// movements looks again at the openings and the closings of pairs.
func (r *room) movements(src dsp.Source, pairs []pair) (opens, closes *align.Movements, err error) {
	var o, c []float64
	soonest := math.Inf(1)
	for i := range pairs {
		o = append(o, r.h.Samples(r.sounds[pairs[i].open].at))
		if pairs[i].close != never {
			c = append(c, r.h.Samples(r.sounds[pairs[i].close].at))
			soonest = math.Min(soonest, pairs[i].span)
		}
	}
	if opens, err = align.LocateMovements(src, r.h.Channel, o, math.Inf(1)); err != nil {
		return nil, nil, err
	}
	closes, err = align.LocateMovements(src, r.h.Channel, c, r.h.Samples(soonest))
	return opens, closes, err
}

// time makes firings of pairs, given in time order, all timed by the same edge.
func (r *room) time(src dsp.Source, pairs []pair) ([]Firing, error) {
	if r.kind == FocalPlane {
		return r.stopToStop(src, pairs)
	}
	opens, closes, err := r.movements(src, pairs)
	if err != nil {
		return nil, err
	}
	edge, open, close, doubt := r.likeEnds(opens, closes)
	common := math.Hypot(commonTo(open, close), doubt)
	firings := make([]Firing, len(pairs))
	closed := 0
	for i := range pairs {
		f := &firings[i]
		f.Edge, f.Open = edge, r.h.Seconds(open.At[i])
		if pairs[i].close == never {
			continue
		}
		f.Closed, f.Close = true, r.h.Seconds(close.At[closed])
		f.U = r.h.Seconds(math.Hypot(math.Hypot(open.U[i], close.U[closed]), common))
		f.Common = r.h.Seconds(common)
		f.Buzz = r.buzzOf(&pairs[i])
		closed++
	}
	return firings, nil
}

// likeEnds chooses the edge by which both ends are timed, and tells what doubt, as a
// standard uncertainty in samples, that leaves in all durations alike. It is the start
// of the movements, unless the end stop is known far better, as where blades start
// softly or a codec spreads sound before them; or the start of the one is soft and the
// noise would hide one like it in the other: the stop is always heard.
func (r *room) likeEnds(opens, closes *align.Movements) (edge Edge, open, close align.Times, doubt float64) {
	const far = 0.5 // of the uncertainty
	start, stop := commonTo(opens.Start, closes.Start), commonTo(opens.Stop, closes.Stop)
	one := opens.Lead == 0 || closes.Lead == 0 // at least shows one part only
	switch hidden := r.hides(opens, closes) || r.hides(closes, opens); {
	case hidden && one:
		// what is taken for the stop of the other may yet be all of it, which puts
		// durations off by up to a stroke, either way
		return EdgeStop, opens.Stop, closes.Stop, math.Max(opens.Lead, closes.Lead) / math.Sqrt(3)
	case hidden, !one && stop < far*start:
		return EdgeStop, opens.Stop, closes.Stop, astray(stop, opens, closes)
	case one:
		return EdgeStart, opens.Start, closes.Start, 0
	}
	return EdgeStart, opens.Start, closes.Start, astray(start, opens, closes)
}

// commonTo is the standard uncertainty that all durations between the two have in
// common, in samples.
func commonTo(open, close align.Times) float64 { return math.Hypot(open.Bias, close.Bias) }

// likeStrokes is by which share the strokes of opening and closing may differ: the
// same ring drives both (common practice, no source).
const likeStrokes = 0.05

// leastStroke is the share of a stroke that another has at least: where it seems shorter, a
// part of one was mistaken.
const leastStroke = 0.75

// astray is what must be added, in squares, to the uncertainty that starts, or stops, have
// in common, to explain by how much the strokes of opening and closing come out different:
// what results differ by beyond what they say is shared out among them in proportion to
// that (R. T. Birge, Physical Review 40, 1932; from memory). Where it is too much to be
// explained by that, a part was mistaken, which may be any of them.
func astray(common float64, opens, closes *align.Movements) float64 {
	const mistaken = 3 // standard uncertainties: one in 400 by chance
	longer, shorter := math.Max(opens.Lead, closes.Lead), math.Min(opens.Lead, closes.Lead)
	differ := longer - shorter - likeStrokes*longer
	ratio := differ / math.Hypot(commonTo(opens.Start, closes.Start), commonTo(opens.Stop, closes.Stop))
	if !(ratio > 1) {
		return 0
	}
	doubt := common * math.Sqrt(ratio*ratio-1)
	if ratio > mistaken && shorter < leastStroke*longer {
		return math.Max(doubt, differ/math.Sqrt(3))
	}
	return doubt
}

// hides tells whether noise may hide in other a start such as m has, all of it or
// what of it comes first. It does where one that lies as far under the loudest part
// would not be heard; and else not where other rises again as long after its beginning
// as m does: then that is the start, only as sudden as the stop.
func (r *room) hides(other, m *align.Movements) bool {
	if m.Lead == 0 || other.Lead > leastStroke*m.Lead {
		return false
	}
	if other.Lead == 0 && other.Depth < m.Drop+certain {
		return true
	}
	if other.RisesAgain(m) {
		return false
	}
	if other.Lead > 0 {
		return other.Depth < other.Drop+2*certain
	}
	return other.Depth < softest+certain
}
