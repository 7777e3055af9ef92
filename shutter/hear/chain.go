package hear

import (
	"context"
	"math"
	"slices"
	"sort"
)

// rearm is the least time in which a shutter can be wound and fired again, s.
const rearm = 0.2

// best is the sequence of pairs with the largest total score, no two of which
// overlap, by dynamic programming. pairs are ordered by closing; their openings come a
// lead, s, after the release. There is none once ctx is done.
func (r *recordedClip) best(ctx context.Context, pairs []pair, lead float64) []pair {
	const back = 200 // pairs looked back over: more than overlap within longestSpan
	n := len(pairs)
	total := make([]float64, n) // of the best sequence that ends with pair i
	from := make([]int, n)      // the pair before it, or −1
	upTo := make([]int, n+1)    // the best of the first i to end with, or −1
	upTo[0] = -1
	for i := range pairs {
		if ctx.Err() != nil {
			return nil
		}
		p := &pairs[i]
		opens := r.sounds[p.open].at - rearm
		k := sort.Search(i, func(k int) bool { return r.sounds[pairs[k].close].at > opens })
		total[i], from[i] = p.score(), -1
		consider := func(b int) {
			if without := p.score() + total[b]; without+mostRepeat > total[i] {
				if t := without + r.follows(&pairs[b], p, lead); t > total[i] {
					total[i], from[i] = t, b
				}
			}
		}
		if upTo[k] >= 0 {
			consider(upTo[k])
		}
		for b := k - 1; b >= max(0, k-back); b-- {
			consider(b)
		}
		upTo[i+1] = upTo[i]
		if upTo[i] < 0 || total[i] > total[upTo[i]] {
			upTo[i+1] = i
		}
	}
	last := upTo[n]
	if last < 0 || total[last] <= 0 {
		return nil
	}
	var set []pair
	for i := last; i >= 0; i = from[i] {
		set = append(set, pairs[i])
	}
	slices.Reverse(set)
	return set
}

// Terms of one firing after another.
const (
	spanRepeats = iota
	woundBetween
	numFollowTerms
)

// followTerms are what q has as the next firing after p.
func (r *recordedClip) followTerms(p, q *pair, lead float64) [numFollowTerms]float64 {
	return [...]float64{spanRepeats: repeats(p, q), woundBetween: winding(r.gap(p, q, lead))}
}

// follows weighs q as the next firing after p: the sum of those.
func (r *recordedClip) follows(p, q *pair, lead float64) float64 {
	t := r.followTerms(p, q, lead)
	return t[spanRepeats] + t[woundBetween]
}

// gap is the time between the closing of p and the release of q, a lead before that opens.
func (r *recordedClip) gap(p, q *pair, lead float64) float64 {
	return r.sounds[q.open].at - lead - r.sounds[p.close].at
}

// mostRepeat is the most that a repeated span is worth.
const mostRepeat = 3

// repeats weighs the spans of two successive firings, as a logarithm of odds
// against two spans by chance. A shutter repeats what it did, unless the dial was
// turned, mostly by a stop.
func repeats(p, q *pair) float64 {
	const unlike = 2.0 // stops: how far the spans of two pairs by chance lie apart
	step := math.Abs(math.Log2(q.span / p.span))
	chance := normal(step/unlike) / unlike
	odds := math.Min(math.Log(stepOdds(step, turned, erring)/chance), mostRepeat)
	if step > unlike { // the further apart, the less it is one shutter's
		odds = math.Min(odds, 0)
	}
	return odds
}

// winding weighs the time in s between a closing and the next release: a shutter
// must be wound or cocked, which takes most of a second.
func winding(gap float64) float64 {
	const usual = 0.8
	return math.Min(0, 4*math.Log(gap/usual))
}

// normal is the density of the standard normal distribution. distuv.UnitNormal takes a
// few times as long for it, and it is most of what weighing the pairs of a clip takes.
func normal(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }
