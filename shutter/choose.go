package shutter

import (
	"cmp"
	"slices"

	"earshot/dsp"
)

// choose finds the best set of pairs for the clip, in time order, given that one
// shutter has one sound of opening and one of closing, and repeats what it does. It keeps
// what most looks like a shutter, of all that are alike and of those that last no longer
// than the parts of one tick may: between firings so fast that their ends are one sound,
// which may be like either end, a set grows into other pairs. And of each set what is likely
// by itself may find fast firings that make up for the rest. It returns the error of src,
// wrapped.
func (r *room) choose(src dsp.Source, pairs []pair) (choice, error) {
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
	for _, set := range r.grown(soon, likely(soon)) {
		add(set, 0)
	}
	for _, set := range r.grown(pairs, pairs) {
		add(withoutWaits(set), 0)
		add(brief(set), 0)
		sure := likely(set)
		add(sure, len(set)-len(sure))
	}
	var all []choice
	for _, c := range sets {
		if r.worthwhile(&c) {
			all = append(all, c)
		}
	}
	return r.surest(src, all)
}

// grown supposes of one seed after the other, that of the most evidence first, that it is a
// firing, and finds all pairs that sound like it. A set may be empty, and be there twice.
func (r *room) grown(pairs, seeds []pair) (sets [][]pair) {
	const tries = 24 // far more than there are kinds of sounds in pairs
	seeds = slices.Clone(seeds)
	slices.SortFunc(seeds, func(p, q pair) int { return cmp.Compare(q.evidence, p.evidence) })
	var passed [][]pair        // the sets that earlier seeds grew through
	known := map[[2]int]bool{} // the pairs in those they grew into
	for _, seed := range seeds {
		if known[[2]int{seed.open, seed.close}] {
			continue
		}
		if len(sets) == tries {
			break
		}
		set := r.grow(pairs, seed, &passed)
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
func (r *room) grow(pairs []pair, seed pair, passed *[][]pair) (set []pair) {
	const rounds = 5 // it settles in two or three
	set = []pair{seed}
	v := r.voice(set)
	possible := make([]pair, 0, len(pairs))
	var through [][]pair
	for range rounds {
		possible = possible[:0]
		for _, p := range pairs {
			if p.likeness = v.likeness(&p); p.score() > -worthless {
				possible = append(possible, p)
			}
		}
		next := r.best(possible, v.lead)
		if same(next, set) {
			*passed = append(*passed, through...)
			return next
		}
		if len(next) == 0 || slices.ContainsFunc(*passed, func(g []pair) bool { return same(g, next) }) {
			return nil
		}
		through = append(through, next)
		set, v = next, r.voice(next)
	}
	return set
}

func same(a, b []pair) bool {
	return slices.EqualFunc(a, b, func(p, q pair) bool { return p.open == q.open && p.close == q.close })
}
