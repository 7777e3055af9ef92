package hear

import (
	"cmp"
	"context"
	"math"
	"slices"

	"earshot/shutter/hear/scene"
)

// certain is the probability from which an explanation of the whole clip stands against
// what the rules find: of 742 such firings in recordings made by other means than those it
// was fitted on 741 were right.
const certain = 0.9

// surer is the firings of a clip by the surer of two ways to hear it: the best explanation
// of its sounds as a whole, and the rules. The explanation stands where it is almost certain,
// and where the rules find nothing. But where both find the same shutter, in most of its
// firings, the rules know better which of the others are its own.
func (r *recordedClip) surer(ctx context.Context, s scene.Recording) (choice, error) {
	x := scene.Explain(ctx, s)
	explained := r.explained(&x)
	c, err := r.choose(ctx, r.pairs(ctx))
	if err != nil {
		return choice{}, err
	}
	nothing := len(c.set)+len(c.fast) == 0
	if len(explained) == 0 || !nothing && (x.P < certain || c.agrees(explained)) {
		return c, ctx.Err()
	}
	return r.withFast(ctx, explained)
}

// agrees tells whether most pairs of a set are among those of the choice.
func (c *choice) agrees(set []pair) bool {
	const most = 2.0 / 3
	n := 0
	for _, p := range set {
		if slices.ContainsFunc(c.set, func(q pair) bool { return p.open == q.open && p.close == q.close }) {
			n++
		}
	}
	return float64(n) >= most*float64(len(set))
}

// explained is the pairs of sounds that an explanation takes for firings, in time order.
func (r *recordedClip) explained(x *scene.Explanation) (set []pair) {
	for _, f := range x.Firings {
		p := pair{open: r.soundAt(x.Sounds[f.Open].At), close: r.soundAt(x.Sounds[f.Close].At)}
		if p.open < 0 || p.close <= p.open || len(set) > 0 && p.open <= set[len(set)-1].close {
			continue // its ends are parts of one sound here
		}
		a, b := &r.sounds[p.open], &r.sounds[p.close]
		p.span = b.at - a.at
		p.evidence, p.explained = math.Log(f.P/(1-math.Min(f.P, 1-1e-9))), f.Terms
		p.buzz, _ = r.buzz(a, b)
		p.steady = r.steady(a, b)
		set = append(set, p)
	}
	return set
}

// soundAt is the sound whose loudest part begins nearest to a time, −1 where none is near.
func (r *recordedClip) soundAt(t float64) int {
	const near = 0.015 // s: a sound here goes on for up to 12 ms
	i, _ := slices.BinarySearchFunc(r.sounds, t, func(s sound, t float64) int { return cmp.Compare(s.at, t) })
	best, off := -1, near
	for k := max(0, i-1); k < min(i+1, len(r.sounds)); k++ {
		if d := math.Abs(r.sounds[k].at - t); d < off {
			best, off = k, d
		}
	}
	return best
}

// withFast is a set with the fast firings that it teaches.
func (r *recordedClip) withFast(ctx context.Context, set []pair) (choice, error) {
	c := choice{set: set}
	if len(set) == 0 {
		return c, nil
	}
	c.model = r.modelOf(set)
	c.may = r.either(c.model, set)
	fast, err := r.fast(ctx, &c)
	c.set, c.fast = sparing(set, pairsOf(fast)), fast
	return c, err
}
