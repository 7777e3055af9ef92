package hear

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// choice is a set of pairs that may be the firings of the shutter in a clip.
type choice struct {
	set  []pair // in time order
	fast []fast // other firings, both ends of which are one sound
	may  []int  // sounds that may be such firings, where these were not looked for yet

	missing int // pairs it was taken out of: as many fast firings must be found instead

	model *model
	net   float64 // net worth, less the sounds it leaves unexplained
}

// worthSearching evaluates a choice as if every sound that may be a fast firing were one.
// It tells whether it is worth looking for those: they would make the set convincing, or
// its pairs are all so brief that only fast firings can.
func (r *recordedClip) worthSearching(c *choice) bool {
	c.model = r.modelOf(c.set)
	c.may = r.either(c.model, c.set)
	return c.evaluate() || len(c.may) > few && len(c.set) >= few && allBrief(c.set)
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

// evaluate sets the net worth of a choice, and tells whether it is the firings of a shutter
// at all.
func (c *choice) evaluate() bool {
	c.model.know(pairsOf(c.fast), c.may)
	before, left := worthOf(c.model.scoreSet(c.set))
	c.net = left
	return c.model.convincing(c.set, before, left)
}

// bestChoice looks for fast firings in the few most promising choices, and returns the one
// of the greatest net worth. It keeps the fast firings only where they add to that. It
// returns an empty choice where none is the firings of a shutter.
func (r *recordedClip) bestChoice(ctx context.Context, all []choice) (best choice, _ error) {
	const tries = 6 // a search reads the clip again
	slices.SortStableFunc(all, func(a, b choice) int { return cmp.Compare(b.net, a.net) })
	best.net = math.Inf(-1)
	for i, c := range all {
		if i >= tries && len(best.set) > 0 {
			break
		}
		if len(c.may) < c.missing || c.net+mostRepeat*float64(len(c.may)) <= best.net { // each may repeat another, at most
			continue
		}
		fast, err := r.fast(ctx, &c)
		if err != nil {
			return choice{}, err
		}
		c.may = nil
		without, with := c, c
		with.set, with.fast = sparing(c.set, pairsOf(fast)), fast
		for _, c := range []choice{without, with} {
			if len(c.set) > 0 && len(c.fast) >= c.missing && c.evaluate() && c.net > best.net {
				best = c
			}
		}
	}
	return best, nil
}

// choose finds the best set of pairs for the clip, in time order. One shutter has one sound
// of opening and one of closing, and repeats what it does. So a set is grown from pairs that
// sound alike, and three sets are compared for each: the whole set but for waits, its brief
// pairs, and its pairs that are likely by themselves. Brief pairs are grown on their own as
// well: where firings are so fast that their ends are one sound, a set would grow into pairs
// of such firings. The likely pairs may find fast firings that make up for the others. It
// returns the error of the clip, wrapped.
func (r *recordedClip) choose(ctx context.Context, pairs []pair) (choice, error) {
	slices.SortFunc(pairs, func(p, q pair) int {
		return cmp.Or(cmp.Compare(p.close, q.close), cmp.Compare(p.open, q.open))
	})
	var sets []choice // each once, not weighed yet
	add := func(set []pair, missing int) {
		if i := slices.IndexFunc(sets, func(c choice) bool { return same(c.set, set) }); i >= 0 {
			sets[i].missing = min(sets[i].missing, missing)
		} else if len(set) > 0 {
			sets = append(sets, choice{set: set, missing: missing})
		}
	}
	soon := brief(pairs)
	for _, set := range r.grown(ctx, soon, likely(soon)) {
		add(set, 0)
	}
	for _, set := range r.grown(ctx, pairs, pairs) {
		add(withoutWaits(set), 0)
		add(brief(set), 0)
		each := likely(set)
		add(each, len(set)-len(each))
	}
	var all []choice
	for _, c := range sets {
		if err := ctx.Err(); err != nil {
			return choice{}, err
		}
		if r.worthSearching(&c) {
			all = append(all, c)
		}
	}
	return r.bestChoice(ctx, all)
}

// grown takes one seed after another, that of the most evidence first, supposes that it is
// a firing and finds all pairs that sound like it. A set may be empty, or be there twice.
func (r *recordedClip) grown(ctx context.Context, pairs, seeds []pair) (sets [][]pair) {
	const tries = 24 // far more than there are kinds of sounds in pairs
	seeds = slices.Clone(seeds)
	slices.SortFunc(seeds, func(p, q pair) int { return cmp.Compare(q.evidence, p.evidence) })
	var passed [][]pair        // the sets that earlier seeds grew through
	known := map[[2]int]bool{} // the pairs in those they grew into
	for _, seed := range seeds {
		if known[[2]int{seed.open, seed.close}] {
			continue
		}
		if len(sets) == tries || ctx.Err() != nil {
			break
		}
		set := r.grow(ctx, pairs, seed, &passed)
		for _, p := range set {
			known[[2]int{p.open, p.close}] = true
		}
		sets = append(sets, set)
	}
	return sets
}

// worthless is evidence against a pair that no repetition makes good.
const worthless = 8

// grow finds the firings of a shutter that sounds like seed: those that the
// others are like, again and again until they stay the same. It returns none where
// there are none, or where an earlier seed has grown through the same set and into the
// same firings. To passed it adds the sets it grows through.
func (r *recordedClip) grow(ctx context.Context, pairs []pair, seed pair, passed *[][]pair) (set []pair) {
	const rounds = 5 // it settles in two or three
	set = []pair{seed}
	m := r.modelOf(set)
	possible := make([]pair, 0, len(pairs))
	var through [][]pair
	for range rounds {
		possible = possible[:0]
		for i, p := range pairs {
			if i%1024 == 0 && ctx.Err() != nil {
				return nil
			}
			if p.likeness = m.likeness(&p); p.score() > -worthless {
				possible = append(possible, p)
			}
		}
		next := r.best(ctx, possible, m.releaseLead)
		if same(next, set) {
			*passed = append(*passed, through...)
			return next
		}
		if len(next) == 0 || slices.ContainsFunc(*passed, func(g []pair) bool { return same(g, next) }) {
			return nil
		}
		through = append(through, next)
		set, m = next, r.modelOf(next)
	}
	return set
}

func same(a, b []pair) bool {
	return slices.EqualFunc(a, b, func(p, q pair) bool { return p.open == q.open && p.close == q.close })
}
