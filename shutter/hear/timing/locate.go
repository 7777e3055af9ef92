package timing

import (
	"context"
	"math"

	"earshot/shutter"
	"earshot/shutter/hear/recording"
)

// Ends are the sounds of one firing: when the loudest parts of its opening and of its
// closing begin, s from the start of the clip.
type Ends struct {
	Open, Close float64
	Closed      bool // there is a closing
}

// softest is how far below its loudest part a movement may start, in dB, and certain
// how much more must have been audible for the absence of a start to mean that
// there is none (common practice, no source: blades start up to 25 dB below their
// end stop). The strokes of opening and closing are alike, so that where the one
// starts softly the other most likely does too, unheard.
const (
	softest = 25
	certain = 3
)

// Firings makes firings of ends, given in time order, all timed by the same edge. It
// returns the error of the clip, or of the context once that is done.
func Firings(ctx context.Context, clip *recording.Clip, kind shutter.Kind, ends []Ends) ([]shutter.Firing, error) {
	if kind == shutter.FocalPlane {
		return stopToStop(ctx, clip, ends)
	}
	opens, closes, err := movements(ctx, clip, ends)
	if err != nil {
		return nil, err
	}
	edge, open, close, doubt := likeEnds(opens, closes)
	common := math.Hypot(commonTo(open, close), doubt)
	firings := make([]shutter.Firing, len(ends))
	closed := 0
	for i := range ends {
		f := &firings[i]
		f.Edge, f.Open = edge, open.At[i]
		if !ends[i].Closed {
			continue
		}
		f.Closed, f.Close = true, close.At[closed]
		f.U = math.Hypot(math.Hypot(open.U[i], close.U[closed]), common)
		f.Common = common
		closed++
	}
	return firings, nil
}

// stopToStop makes firings of two curtains from ends, given in time order, all timed as
// one class: the curtains sound alike, and what the mirror adds to the one is not common
// to both.
func stopToStop(ctx context.Context, clip *recording.Clip, ends []Ends) ([]shutter.Firing, error) {
	var all []float64
	for _, e := range ends {
		all = append(all, e.Open, e.Close)
	}
	m, err := clip.Movements(ctx, all, math.Inf(1))
	if err != nil {
		return nil, err
	}
	firings := make([]shutter.Firing, len(ends))
	for i := range ends {
		o, c := 2*i, 2*i+1
		firings[i] = shutter.Firing{
			Edge: shutter.EdgeStop, Closed: true, Open: m.Stop.At[o], Close: m.Stop.At[c],
			U: math.Hypot(math.Hypot(m.Stop.U[o], m.Stop.U[c]), m.Stop.Bias), Common: m.Stop.Bias,
		}
	}
	return firings, nil
}

// movements looks again at the openings and the closings of firings.
func movements(ctx context.Context, clip *recording.Clip, ends []Ends) (opens, closes *recording.Movements, err error) {
	var o, c []float64
	soonest := math.Inf(1)
	for _, e := range ends {
		o = append(o, e.Open)
		if e.Closed {
			c = append(c, e.Close)
			soonest = math.Min(soonest, e.Close-e.Open)
		}
	}
	if opens, err = clip.Movements(ctx, o, math.Inf(1)); err != nil {
		return nil, nil, err
	}
	closes, err = clip.Movements(ctx, c, soonest)
	return opens, closes, err
}

// likeEnds chooses the edge by which both ends are timed, and tells what doubt, as a
// standard uncertainty in s, that leaves in all durations alike. It is the start
// of the movements, unless the end stop is known far better, as where blades start
// softly or a codec spreads sound before them; or the start of the one is soft and the
// noise would hide one like it in the other: the stop is always heard.
func likeEnds(opens, closes *recording.Movements) (edge shutter.Edge, open, close recording.Times, doubt float64) {
	const far = 0.5 // of the uncertainty
	start, stop := commonTo(opens.Start, closes.Start), commonTo(opens.Stop, closes.Stop)
	one := opens.Lead == 0 || closes.Lead == 0 // at least shows one part only
	switch hidden := hides(opens, closes) || hides(closes, opens); {
	case hidden && one:
		// what is taken for the stop of the other may yet be all of it, which puts
		// durations off by up to a stroke, either way
		return shutter.EdgeStop, opens.Stop, closes.Stop, math.Max(opens.Lead, closes.Lead) / math.Sqrt(3)
	case hidden, !one && stop < far*start:
		return shutter.EdgeStop, opens.Stop, closes.Stop, astray(stop, opens, closes)
	case one:
		return shutter.EdgeStart, opens.Start, closes.Start, 0
	}
	return shutter.EdgeStart, opens.Start, closes.Start, astray(start, opens, closes)
}

// commonTo is the standard uncertainty that all durations between the two have in
// common, s.
func commonTo(open, close recording.Times) float64 { return math.Hypot(open.Bias, close.Bias) }

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
func astray(common float64, opens, closes *recording.Movements) float64 {
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
func hides(other, m *recording.Movements) bool {
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
