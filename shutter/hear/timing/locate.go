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
	edge, doubt := likeEnds(opens, closes)
	open, close := timesOf(opens, edge), timesOf(closes, edge)
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
	m, err := clip.Movements(ctx, all, math.Inf(1), math.Inf(1))
	if err != nil {
		return nil, err
	}
	firings := make([]shutter.Firing, len(ends))
	m.Time(m.Loudest(), m.Loudest())
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
	if opens, err = clip.Movements(ctx, o, math.Inf(1), soonest); err != nil {
		return nil, nil, err
	}
	closes, err = clip.Movements(ctx, c, soonest, math.Inf(1))
	return opens, closes, err
}

// timesOf are the times by an edge.
func timesOf(m *recording.Movements, edge shutter.Edge) recording.Times {
	if edge == shutter.EdgeStop {
		return m.Stop
	}
	return m.Start
}

// commonTo is the standard uncertainty that all durations between the two have in
// common, s.
func commonTo(open, close recording.Times) float64 { return math.Hypot(open.Bias, close.Bias) }
