package shutter

import (
	"cmp"
	"math"
	"slices"

	"earshot/dsp"
)

// choice is a set of pairs that may be the firings of the shutter in a clip.
type choice struct {
	set  []pair // in time order
	fast []fast // firings besides, whose ends are one sound each
	may  []int  // sounds that may be such firings, where these were not looked for yet

	missing int // pairs it was taken out of: as many fast firings must be found instead

	voice *voice
	left  float64 // what is left of its evidence after all is weighed
}

// worthwhile weighs a choice of a set as if all were fast firings that may be, and tells
// whether it is worth looking for these: it is a shutter's then, or too brief to show by
// itself that it is.
func (r *room) worthwhile(c *choice) bool {
	c.voice = r.voice(c.set)
	c.may = r.either(c.voice, c.set)
	return c.weigh() || len(c.may) > few && len(c.set) >= few && allBrief(c.set)
}

// brief is the pairs that are no longer than the parts of one tick may be.
func brief(set []pair) []pair {
	return slices.DeleteFunc(slices.Clone(set), func(p pair) bool { return p.span > tick })
}

// likely is the pairs that are firings more likely than not, each by itself.
func likely(set []pair) []pair {
	return slices.DeleteFunc(slices.Clone(set), func(p pair) bool { return p.evidence <= 0 })
}

// allBrief tells whether a set has no other pairs than brief ones.
func allBrief(set []pair) bool { return len(brief(set)) == len(set) }

// weigh weighs a choice, and tells whether it is the firings of a shutter at all.
func (c *choice) weigh() bool {
	c.voice.know(c.fast, c.may)
	worth := c.voice.worth(c.set)
	c.left = worth - c.voice.unexplained(c.set)
	return c.voice.convincing(c.set, worth, c.left)
}

// surest is the choice of which most is left when its fast firings were looked for, in
// the few of which most may be; none where none is the firings of a shutter. What was
// found so is left out where more is left without.
func (r *room) surest(src dsp.Source, all []choice) (best choice, _ error) {
	const tries = 6 // a search reads the clip again
	slices.SortStableFunc(all, func(a, b choice) int { return cmp.Compare(b.left, a.left) })
	best.left = math.Inf(-1)
	for i, c := range all {
		if i >= tries && len(best.set) > 0 {
			break
		}
		if len(c.may) < c.missing || c.left+mostRepeat*float64(len(c.may)) <= best.left { // each may repeat another, at most
			continue
		}
		fast, err := r.fast(src, &c)
		if err != nil {
			return choice{}, err
		}
		c.may = nil
		without, with := c, c
		with.set, with.fast = sparing(c.set, pairsOf(fast)), fast
		for _, c := range []choice{without, with} {
			if len(c.set) > 0 && len(c.fast) >= c.missing && c.weigh() && c.left > best.left {
				best = c
			}
		}
	}
	return best, nil
}
