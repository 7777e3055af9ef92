package shutter

import (
	"cmp"
	"slices"

	"earshot/dsp"
)

// choose finds the best set of pairs for the clip, in time order, given that one
// shutter has one sound of opening and one of closing, and repeats what it does.
// It supposes of one pair after the other, that of the most evidence first, that it
// is a firing, finds all that sounds like it, and keeps what most looks like a
// shutter. It returns the error of src, wrapped.
func (r *room) choose(src dsp.Source, pairs []pair) (choice, error) {
	const tries = 24 // far more than there are kinds of sounds in pairs
	slices.SortFunc(pairs, func(p, q pair) int {
		return cmp.Or(cmp.Compare(p.close, q.close), cmp.Compare(p.open, q.open))
	})
	seeds := slices.Clone(pairs)
	slices.SortFunc(seeds, func(p, q pair) int { return cmp.Compare(q.evidence, p.evidence) })
	var all []choice
	var grown [][]pair         // the sets that earlier seeds grew through
	known := map[[2]int]bool{} // the pairs in those they grew into
	tried := 0
	for _, seed := range seeds {
		if known[[2]int{seed.open, seed.close}] {
			continue
		}
		if tried++; tried > tries {
			break
		}
		set, v := r.grow(pairs, seed, &grown)
		for _, p := range set {
			known[[2]int{p.open, p.close}] = true
		}
		for _, some := range [][]pair{withoutWaits(set), brief(set)} {
			if len(some) == 0 || slices.ContainsFunc(all, func(c choice) bool { return same(c.set, some) }) {
				continue
			}
			if len(some) < len(set) {
				v = r.voice(some)
			}
			if c, worth := r.newChoice(some, v); worth {
				all = append(all, c)
			}
		}
	}
	return r.surest(src, all)
}

// worthless is evidence against a pair that no repetition makes good.
const worthless = 8

// grow finds the firings of a shutter that sounds like seed: those that the
// others are like, again and again until they stay the same. It returns them with
// the voice they have; none where there are none, or where an earlier seed has grown
// through the same set and into the same firings. To grown it adds the sets it
// grows through.
func (r *room) grow(pairs []pair, seed pair, grown *[][]pair) (set []pair, v *voice) {
	const rounds = 5 // it settles in two or three
	set = []pair{seed}
	v = r.voice(set)
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
			*grown = append(*grown, through...)
			return next, v
		}
		if len(next) == 0 || slices.ContainsFunc(*grown, func(g []pair) bool { return same(g, next) }) {
			return nil, nil
		}
		through = append(through, next)
		set, v = next, r.voice(next)
	}
	return set, v
}

func same(a, b []pair) bool {
	return slices.EqualFunc(a, b, func(p, q pair) bool { return p.open == q.open && p.close == q.close })
}
