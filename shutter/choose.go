package shutter

import (
	"cmp"
	"math"
	"slices"
)

// recurs is the evidence for a set that it comes again and again, against one that
// came once or twice: else something other than the shutter had done so besides.
const recurs = 3

// choose finds the best set of pairs for the clip, in time order, given that one
// shutter has one sound of opening and one of closing, and repeats what it does.
// It supposes of one pair after the other, that of the most evidence first, that it
// is a firing, finds all that sounds like it, and keeps what most looks like a
// shutter.
func (r *room) choose(pairs []pair) (best []pair) {
	const tries = 24 // far more than there are kinds of sounds in pairs
	slices.SortFunc(pairs, func(p, q pair) int {
		return cmp.Or(cmp.Compare(p.close, q.close), cmp.Compare(p.open, q.open))
	})
	seeds := slices.Clone(pairs)
	slices.SortFunc(seeds, func(p, q pair) int { return cmp.Compare(q.evidence, p.evidence) })
	most := math.Inf(-1)
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
		switch timed := withoutWaits(set); {
		case len(timed) == 0:
			continue
		case len(timed) < len(set):
			set, v = timed, r.voice(timed)
		}
		worth := v.worth(set)
		left := worth - v.unexplained(set)
		if len(set) > few {
			left += recurs
		}
		if left > most && v.convincing(set, worth) {
			best, most = set, left
		}
	}
	return best
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
		next := r.best(possible)
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

// stranger is the evidence against a set from one sound as like its ends that
// belongs to no firing.
const stranger = 2.5

// unexplained is the evidence against a set from the sounds that are as like its
// openings or closings as most of these are, and yet belong to no firing. Where a
// reflex was heard, its blades have closed on each release, and have opened again
// once between two firings.
func (v *voice) unexplained(set []pair) float64 {
	known := map[int]bool{}
	for i := range set {
		known[set[i].open], known[set[i].close] = true, true
		if release, weight := v.release(set[i].open); weight > 0 {
			known[release] = true
		}
	}
	open, close := v.open.most(), v.close.most()
	strangers, reopened := 0, 0
	for i := range v.r.sounds {
		if known[i] || v.r.sounds[i].surprise() <= 0 {
			continue
		}
		switch {
		case v.open.distance(i) <= open:
			reopened++
		case v.close.distance(i) <= close:
			strangers++
		}
	}
	if v.lead > 0 {
		reopened = max(0, reopened-len(set)-1)
	}
	return stranger * float64(strangers+reopened)
}
