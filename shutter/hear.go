package shutter

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"earshot/dsp"
)

// together is how many firings are timed together: enough that more would hardly
// place them better, and so few that what is read of them stays small however
// long the clip.
const together = 48

// Hear finds the firings of a leaf shutter in one clip, in time order, told
// nothing but the sound. h is what was heard in src; src is read again around
// the openings and closings, to time them. It returns the error of src, wrapped.
func Hear(h *dsp.Hearing, src dsp.Source, clip int) ([]Firing, error) {
	r := newRoom(h)
	set := r.choose(r.pairs())
	more, hung := r.left(set)
	all := slices.Concat(set, more, hung)
	slices.SortFunc(all, func(p, q pair) int { return cmp.Compare(p.open, q.open) })
	var firings []Firing
	for some := range slices.Chunk(all, together) {
		timed, err := r.time(src, some)
		if err != nil {
			return nil, fmt.Errorf("timing the firings: %w", err)
		}
		firings = append(firings, timed...)
	}
	longest := 0.0
	for i := range set {
		longest = math.Max(longest, set[i].span)
	}
	for i := range firings {
		f := &firings[i]
		f.Clip = clip
		if !f.Closed && r.h.Duration()-f.Open < longest+hangsAfter {
			f.Unfit = "the clip ends before it closes"
		}
	}
	r.markGaps(firings, longest)
	return firings, nil
}
