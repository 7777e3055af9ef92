package hear

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"earshot/dsp"
	"earshot/shutter"
	"earshot/shutter/hear/recording"
	"earshot/shutter/hear/timing"
)

// together is how many firings are timed together: enough that more would hardly
// place them better, and so few that what is read of them stays small however
// long the clip.
const together = 48

// find finds the firings of a shutter of a kind in one clip, told nothing else but
// the sound. h is what was heard in src; src is read again around the openings and
// closings, to time them. It returns the error of src, wrapped.
func find(ctx context.Context, h *dsp.Hearing, src dsp.Source, o Options) (Heard, error) {
	r := newRecordedClip(h, src, o.Kind)
	c, err := r.surer(ctx, recording.Scene(h, o.Kind == shutter.FocalPlane))
	if err != nil {
		return Heard{}, err
	}
	firings, found, err := r.timed(ctx, c)
	if err != nil {
		return Heard{}, err
	}
	longest := 0.0
	for i := range c.set {
		longest = math.Max(longest, c.set[i].span)
	}
	for i := range firings {
		firings[i].Clip = o.Clip
	}
	u := r.unheard()
	u.mark(firings, longest)
	if err := timing.Attend(ctx, &r.clip, o.Kind, firings); err != nil {
		return Heard{}, err
	}
	account := &Account{r: r, found: found, firings: firings}
	return Heard{Firings: firings, Alike: r.soundsAlike(c.set), Account: account, clip: o.Clip, unheard: u}, nil
}

// found is where the firings of a clip came from: the set that was chosen, and what it
// helped to find besides.
type found struct{ set, more, hung, fast []pair }

// timed makes firings of a choice and of what it helps to find besides, in time order.
func (r *recordedClip) timed(ctx context.Context, c choice) (firings []shutter.Firing, f found, err error) {
	f = found{set: c.set, fast: pairsOf(c.fast)}
	f.more, f.hung = r.missed(ctx, f.set, inOrder(f.set, f.fast))
	if err := ctx.Err(); err != nil {
		return nil, found{}, err
	}
	for i := range c.fast {
		firings = append(firings, c.fast[i].firing)
	}
	for some := range slices.Chunk(inOrder(f.set, f.more, f.hung), together) {
		ends := make([]timing.Ends, len(some))
		for i := range some {
			ends[i] = r.ends(&some[i])
		}
		timed, err := timing.Firings(ctx, &r.clip, r.kind, ends)
		if err != nil {
			return nil, found{}, fmt.Errorf("timing the firings: %w", err)
		}
		for i := range some {
			if some[i].close != never {
				timed[i].Buzz = r.buzzOf(&some[i])
			}
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
