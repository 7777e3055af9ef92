package hear

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"earshot/dsp"
	"earshot/shutter"
)

// together is how many firings are timed together: enough that more would hardly
// place them better, and so few that what is read of them stays small however
// long the clip.
const together = 48

// Heard is what was heard of a shutter in one clip.
type Heard struct {
	Firings []shutter.Firing // in time order
	Alike   bool             // the openings sound like the closings
	Account *Account         // what the firings rest on

	clip    int
	unheard unheard
}

// Hear finds the firings of a shutter of a kind in one clip, told nothing else but
// the sound. h is what was heard in src; src is read again around the openings and
// closings, to time them. It returns the error of src, wrapped.
func Hear(h *dsp.Hearing, src dsp.Source, clip int, kind shutter.Kind) (Heard, error) {
	r := newRoom(h, kind)
	c, err := r.choose(src, r.pairs())
	if err != nil {
		return Heard{}, err
	}
	firings, found, err := r.timed(src, c)
	if err != nil {
		return Heard{}, err
	}
	longest := 0.0
	for i := range c.set {
		longest = math.Max(longest, c.set[i].span)
	}
	for i := range firings {
		firings[i].Clip = clip
	}
	u := r.unheard()
	u.mark(firings, longest)
	if err := r.attend(src, firings); err != nil {
		return Heard{}, err
	}
	account := &Account{r: r, found: found, firings: firings}
	return Heard{Firings: firings, Alike: r.soundsAlike(c.set), Account: account, clip: clip, unheard: u}, nil
}

// found is where the firings of a clip came from: the set that was chosen, and what it
// helped to find besides.
type found struct{ set, more, hung, fast []pair }

// timed makes firings of a choice and of what it helps to find besides, in time order.
func (r *room) timed(src dsp.Source, c choice) (firings []shutter.Firing, f found, err error) {
	f = found{set: c.set, fast: pairsOf(c.fast)}
	f.more, f.hung = r.left(f.set, inOrder(f.set, f.fast))
	for i := range c.fast {
		firings = append(firings, c.fast[i].firing)
	}
	for some := range slices.Chunk(inOrder(f.set, f.more, f.hung), together) {
		timed, err := r.time(src, some)
		if err != nil {
			return nil, found{}, fmt.Errorf("timing the firings: %w", err)
		}
		firings = append(firings, timed...)
	}
	slices.SortFunc(firings, func(f, g shutter.Firing) int { return cmp.Compare(f.Open, g.Open) })
	return firings, f, nil
}

// inOrder is all the pairs in the order of their openings.
func inOrder(sets ...[]pair) []pair {
	all := slices.Concat(sets...)
	slices.SortFunc(all, func(p, q pair) int { return cmp.Compare(p.open, q.open) })
	return all
}

// sparing is the set but for the pairs that take a sound of the others, and leaves the
// set itself as it is.
func sparing(set, others []pair) []pair {
	return slices.DeleteFunc(slices.Clone(set), func(p pair) bool {
		return slices.ContainsFunc(others, func(q pair) bool { return p.open == q.open || p.close == q.open })
	})
}
