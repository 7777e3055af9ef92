package hear

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"earshot/shutter"
	"earshot/shutter/hear/scene"
)

// Account is what the firings of one clip rest on: the sounds heard, and the pairs of them
// that were scored. It keeps what was found, and scores anew only what it is asked about.
type Account struct {
	Before int // firings of other clips before those of this one, which are numbered on from there

	r       *recordedClip
	found   found
	firings []shutter.Firing
	made    []pair // of which each firing was made; learnt when first asked
	how     []string
	model   *model // what the shutter was found to sound like; nil where no firing closed
}

// Firing explains the i-th firing of the clip.
func (a *Account) Firing(i int) shutter.Explanation {
	a.learn()
	f := a.firings[i]
	terms := append(a.terms(a.made[i]), a.neighbourTerms(i)...)
	c := a.candidate(a.made[i], terms, a.how[i])
	e := shutter.Explanation{At: f.Open, Candidates: []shutter.Candidate{c}, Notes: append([]string{timedBy(f)}, a.setNotes()...)}
	until := f.Open + shortestSpan
	if f.Closed {
		until = f.Close
	}
	e.Sounds = a.nearby(f.Open-around, until+around)
	return e
}

// onsetLags is by how much later than they are timed the loudest parts of openings and of
// closings begin, s; 0 where nothing closed.
func (a *Account) onsetLags() (leads [2]float64) {
	var opens, closes []float64
	for i, f := range a.firings {
		if p := a.made[i]; f.Closed && p.open != p.close {
			opens = append(opens, a.r.sounds[p.open].at-f.Open)
			closes = append(closes, a.r.sounds[p.close].at-f.Close)
		}
	}
	if len(opens) > 0 {
		leads = [2]float64{shutter.Median(opens), shutter.Median(closes)}
	}
	return leads
}

// around is how much of the clip before and after is told of, s.
const around = 0.5

// How a pair came to be a firing.
const (
	chosen = "a firing: of all ways to pair the sounds of the clip, the one with this pair is the most like a shutter"
	taught = "a firing: found by what the others taught: an opening like theirs, and a closing like theirs after it, whatever was heard between"
	stays  = "a firing: an opening like those of the other firings, and nothing like their closings after it"
	merged = "a firing: opening and closing are one sound, in which both were told apart by what the slower firings taught"
)

// learn prepares what every explanation needs, once.
func (a *Account) learn() {
	if a.made != nil {
		return
	}
	for _, f := range a.firings {
		p, how := a.pairOf(f)
		a.made, a.how = append(a.made, p), append(a.how, how)
	}
	if len(a.found.set) > 0 {
		a.model = a.r.modelOf(a.found.set)
		a.model.know(a.found.fast, nil)
	}
}

// pairOf is the pair that a firing was made of, and how that came to be one. It is the
// nearest pair: firings are further apart than the parts of one movement.
func (a *Account) pairOf(f shutter.Firing) (best pair, how string) {
	off := math.Inf(1)
	for _, kind := range []struct {
		pairs []pair
		how   string
	}{{a.found.set, chosen}, {a.found.more, taught}, {a.found.hung, stays}, {a.found.fast, merged}} {
		for _, p := range kind.pairs {
			if d := math.Abs(a.r.sounds[p.open].at - f.Open); d < off {
				off, best, how = d, p, kind.how
			}
		}
	}
	return best, how
}

// terms weighs a pair anew: they are what its score is the sum of.
func (a *Account) terms(p pair) []term {
	switch p.close {
	case never:
		return a.opensLike(p.open)
	case p.open:
		return nil
	}
	if p.explained != nil {
		return termsOf(p.explained)
	}
	return append(a.r.terms(p), a.likeness(p)...)
}

// termsOf are the terms by which the clip as a whole was explained.
func termsOf(explained []scene.Term) (all []term) {
	for _, t := range explained {
		all = append(all, term{t.Name, t.Weight, t.Means})
	}
	return all
}

// candidate is a pair as it is told, with what became of it.
func (a *Account) candidate(p pair, terms []term, why string) shutter.Candidate {
	c := shutter.Candidate{Open: a.r.sounds[p.open].at, Close: math.Inf(1), Evidence: evidence(terms), Why: why}
	switch p.close {
	case never:
	case p.open:
		c.Close = c.Open + p.span
	default:
		c.Close = a.r.sounds[p.close].at
	}
	return c
}

// neighbourTerms are what the firings before and after the i-th say.
func (a *Account) neighbourTerms(i int) (all []term) {
	if !a.closed(i) {
		return nil
	}
	p := &a.made[i]
	if i > 0 && a.closed(i-1) {
		before := &a.made[i-1]
		values := a.r.followTerms(before, p, a.releaseLead())
		all = append(all,
			term{"repeats", values[spanRepeats], fmt.Sprintf("its ends are %s apart, and those of the firing before %s", shutter.TimeText(p.span), shutter.TimeText(before.span))},
			term{"winding", values[woundBetween], fmt.Sprintf("it is released %.2f s after the firing before closed: winding takes most of a second", a.r.gap(before, p, a.releaseLead()))})
	}
	if i+1 < len(a.made) && a.closed(i+1) {
		after := &a.made[i+1]
		values := a.r.followTerms(p, after, a.releaseLead())
		all = append(all, term{"repeated", values[spanRepeats], fmt.Sprintf("the ends of the firing after are %s apart", shutter.TimeText(after.span))})
	}
	return all
}

// closed tells whether the i-th firing closed, with a sound that was paired.
func (a *Account) closed(i int) bool { return a.firings[i].Closed && a.made[i].close != never }

// releaseLead is by how much an opening comes after the release, s.
func (a *Account) releaseLead() float64 {
	if a.model == nil {
		return 0
	}
	return a.model.releaseLead
}

// timedBy says how a firing was timed, and how sure of that.
func timedBy(f shutter.Firing) string {
	edge := "the start of the blades"
	if f.Edge == shutter.EdgeStop {
		edge = "the end stop"
	}
	if !f.Closed {
		return "timed by " + edge
	}
	return fmt.Sprintf("timed by %s at both ends, standard uncertainty %s, of which %s is the same in all firings of the clip", edge, precise(f.U), precise(f.Common))
}

// precise is a short time in s as ms.
func precise(s float64) string { return fmt.Sprintf("%.3f ms", s*1000) }

// nearby lists the sounds from one time to another that stand out, the loudest of them
// where they are many.
func (a *Account) nearby(from, to float64) []shutter.Nearby {
	const most = 10
	var all []shutter.Nearby
	for i := range a.r.sounds {
		if s := &a.r.sounds[i]; s.at >= from && s.at <= to && s.prominenceOdds() > 0 {
			all = append(all, shutter.Nearby{At: s.at, Level: s.level, Over: s.prominence, Is: a.is(i)})
		}
	}
	slices.SortFunc(all, func(x, y shutter.Nearby) int {
		return cmp.Or(cmp.Compare(len(y.Is), len(x.Is)), cmp.Compare(y.Level, x.Level))
	})
	all = all[:min(len(all), most)]
	slices.SortFunc(all, func(x, y shutter.Nearby) int { return cmp.Compare(x.At, y.At) })
	return all
}

// number is what the i-th firing of the clip is called.
func (a *Account) number(i int) int { return a.Before + i + 1 }

// is says which end of which firing sound i is; empty for none.
func (a *Account) is(i int) string {
	for k, p := range a.made {
		switch i {
		case p.open:
			return fmt.Sprintf("opening of firing %d", a.number(k))
		case p.close:
			return fmt.Sprintf("closing of firing %d", a.number(k))
		}
	}
	return ""
}
