package shutter

import (
	"fmt"
	"math"

	"earshot/dsp"
)

// Hear finds the firings of a leaf shutter in one clip, in time order, told
// nothing but the sound. h is what was heard in src; src is read again around
// the openings and closings, to time them. It returns the error of src, wrapped.
func Hear(h *dsp.Hearing, src dsp.Source, clip int) ([]Firing, error) {
	r := newRoom(h)
	set := r.choose(r.pairs())
	if len(set) == 0 {
		return nil, nil
	}
	more, hung := r.left(set)
	set = append(set, more...)
	opens, closes, err := r.locate(src, set, hung)
	if err != nil {
		return nil, fmt.Errorf("timing the firings: %w", err)
	}
	edge, open, close := r.likeEnds(opens, closes)
	var firings []Firing
	for i := range set {
		firings = append(firings, Firing{Clip: clip, Edge: edge, Closed: true,
			Open: h.Seconds(open[i]), Close: h.Seconds(close[i]),
			U:    h.Seconds(math.Sqrt(square(opens.U[i]) + square(opens.Bias) + square(closes.U[i]) + square(closes.Bias))),
			Buzz: r.buzzOf(&set[i])})
	}
	for i := range hung {
		f := Firing{Clip: clip, Edge: edge, Open: h.Seconds(open[len(set)+i])}
		if h.Duration()-f.Open < r.longest(set)+hangsAfter {
			f.Unfit = "the clip ends before it closes"
		}
		firings = append(firings, f)
	}
	r.markGaps(firings)
	return inOrder(firings), nil
}

// longest is the longest span of a set of firings, s.
func (r *room) longest(set []pair) float64 {
	longest := 0.0
	for i := range set {
		longest = math.Max(longest, set[i].span)
	}
	return longest
}
