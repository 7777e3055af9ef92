package hear

import (
	"context"
	"fmt"

	"earshot/shutter"
	"earshot/shutter/hear/recording"
	"earshot/shutter/hear/timing"
)

// fast is a firing so fast that opening and closing are one sound. Its pair is of that
// sound with itself.
type fast struct {
	pair
	firing shutter.Firing
}

func pairsOf(all []fast) (pairs []pair) {
	for i := range all {
		pairs = append(pairs, all[i].pair)
	}
	return pairs
}

// fast looks for fast firings: sounds in which one opening followed by one closing is
// found, as the set of a choice teaches them. It finds none where far more sounds may be
// fast firings than the set has firings: those are sounds of something else.
func (r *recordedClip) fast(ctx context.Context, c *choice) (all []fast, err error) {
	const many = 10 // to each that teaches: every faster speed of a dial fired twice as often
	if len(c.may) == 0 || len(c.may) > many*len(c.set) || r.kind == shutter.FocalPlane {
		return nil, nil
	}
	var taught []timing.Ends
	for i := range c.set[:min(len(c.set), together)] {
		taught = append(taught, r.ends(&c.set[i]))
	}
	at := make([]float64, len(c.may))
	for k, i := range c.may {
		at[k] = r.sounds[i].at
	}
	found, err := timing.Fast(ctx, &r.clip, taught, at)
	if err != nil {
		return nil, fmt.Errorf("a fast firing: %w", err)
	}
	for k, f := range found {
		if i := c.may[k]; f.Closed {
			all = append(all, fast{pair{open: i, close: i, span: f.Duration()}, f})
		}
	}
	return all, nil
}

// either lists the sounds that come by themselves and are like the openings or the closings
// of the set. It leaves out the ends of firings that are likely by themselves, and of those
// so short that the other end would be found again.
func (r *recordedClip) either(m *model, set []pair) (all []int) {
	known := map[int]bool{}
	for _, p := range set {
		for _, i := range [...]int{p.open, p.close} {
			known[i] = p.evidence > 0 || p.span < 2*recording.OverlaidMost
		}
	}
	like := func(c *class, most float64, i int) bool { return c.weight(i) > 0 || c.distance(i) <= most }
	mostOpen, mostClose := m.open.most(), m.close.most()
	for i := range r.sounds {
		if r.sounds[i].prominenceOdds() > 0 && !known[i] && (like(m.open, mostOpen, i) || like(m.close, mostClose, i)) && r.alone(m, i) {
			all = append(all, i)
		}
	}
	return all
}
