package shutter

import (
	"fmt"
	"math"

	"earshot/dsp"
	"earshot/dsp/align"
)

// fast is a firing so fast that opening and closing are one sound: a pair of that with
// itself, with its times.
type fast struct {
	pair
	firing Firing
}

func pairsOf(all []fast) (pairs []pair) {
	for i := range all {
		pairs = append(pairs, all[i].pair)
	}
	return pairs
}

// fast looks for fast firings by what the set of a choice teaches: sounds in which one
// opening followed by one closing is found. That there is one speaks for the set.
// Where many more sounds may be fast firings than are taught from, they are something
// else's.
func (r *room) fast(src dsp.Source, c *choice) (all []fast, err error) {
	const many = 10 // to each that teaches: every faster speed of a dial fired twice as often
	if len(c.may) == 0 || len(c.may) > many*len(c.set) || r.kind == FocalPlane {
		return nil, nil
	}
	opens, closes, err := r.movements(src, c.set[:min(len(c.set), together)])
	if err != nil {
		return nil, err
	}
	opening, closing := opens.Template(soonestClosing(opens, closes)), closes.Template(math.Inf(1))
	edge, _, _, doubt := r.likeEnds(opens, closes)
	for _, i := range c.may {
		o, ok, err := align.Overlay(src, r.h.Channel, opening, closing, r.h.Samples(r.sounds[i].at))
		if err != nil {
			return nil, fmt.Errorf("a fast firing: %w", err)
		}
		if !ok {
			continue
		}
		between := o.Start
		if edge == EdgeStop {
			between = o.Stop
		}
		f := Firing{Edge: edge, Closed: true, U: r.h.Seconds(math.Hypot(between.U, doubt)), Common: r.h.Seconds(math.Hypot(between.Bias, doubt)),
			Open: r.h.Seconds(between.First), Close: r.h.Seconds(between.Second)}
		if r.h.Samples(f.Duration()) < leastStroke*math.Max(opens.Lead, closes.Lead) {
			continue // blades close no sooner than they have opened, and strokes differ
		}
		all = append(all, fast{pair{open: i, close: i, span: f.Duration()}, f})
	}
	return all, nil
}

// soonestClosing is the least time in samples from the start of an opening to that of its
// closing. Where the one shows no start its stop was taken for it, which comes a stroke
// later.
func soonestClosing(opens, closes *align.Movements) float64 {
	least := math.Inf(1)
	for i, at := range closes.Start.At {
		least = math.Min(least, at-opens.Start.At[i])
	}
	return least - math.Max(0, opens.Lead-closes.Lead)
}

// either lists the sounds that come by themselves and are like openings or closings of the
// set. None is an end of a firing that is likely by itself, or so short that its other end
// would be found again.
func (r *room) either(v *voice, set []pair) (all []int) {
	known := map[int]bool{}
	for _, p := range set {
		for _, i := range [...]int{p.open, p.close} {
			known[i] = p.evidence > 0 || p.span < 2*align.OverlaidMost
		}
	}
	like := func(c *class, most float64, i int) bool { return c.weight(i) > 0 || c.distance(i) <= most }
	mostOpen, mostClose := v.open.most(), v.close.most()
	for i := range r.sounds {
		if r.sounds[i].surprise() > 0 && !known[i] && (like(v.open, mostOpen, i) || like(v.close, mostClose, i)) && r.alone(v, i) {
			all = append(all, i)
		}
	}
	return all
}
