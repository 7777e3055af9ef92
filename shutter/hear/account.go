package hear

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"earshot/shutter"
)

// Account is what the firings of one clip rest on: the sounds heard and the pairs of
// them that were weighed. It keeps what hearing found out and weighs anew only what it is
// asked about.
type Account struct {
	Before int // firings of other clips before those of this one, which are numbered on from there

	r       *room
	found   found
	firings []shutter.Firing
	made    []pair // of which each firing was made; learnt when first asked
	how     []string
	voice   *voice // what the shutter was found to sound like; nil where no firing closed
}

// Firing explains the i-th firing of the clip.
func (a *Account) Firing(i int) shutter.Explanation {
	a.learn()
	f := a.firings[i]
	c := a.candidate(a.made[i], a.how[i])
	a.addNeighbours(&c, i)
	e := shutter.Explanation{At: f.Open, Candidates: []shutter.Candidate{c}, Notes: []string{timedBy(f)}}
	until := f.Open + shortestSpan
	if f.Closed {
		until = f.Close
	}
	e.Sounds = a.nearby(f.Open-around, until+around)
	return e
}

// leads is what Explanation holds of them; 0 where nothing closed.
func (a *Account) leads() (leads [2]float64) {
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

// learn finds out what every explanation needs.
func (a *Account) learn() {
	if a.made != nil {
		return
	}
	for _, f := range a.firings {
		p, how := a.pairOf(f)
		a.made, a.how = append(a.made, p), append(a.how, how)
	}
	if len(a.found.set) > 0 {
		a.voice = a.r.voice(a.found.set)
	}
}

// pairOf is the pair that a firing was made of, and how that came to be one. Firings are
// further apart than any part of a movement from another, so it is the nearest.
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

// candidate weighs a pair anew.
func (a *Account) candidate(p pair, why string) shutter.Candidate {
	c := shutter.Candidate{Open: a.r.sounds[p.open].at, Close: math.Inf(1), Why: why}
	switch {
	case p.close == never:
		c.Evidence = a.opensLike(p.open)
	case p.close == p.open:
		c.Close = c.Open + p.span
	default:
		c.Close = a.r.sounds[p.close].at
		c.Evidence = append(a.r.terms(p), a.likeness(p)...)
	}
	return c
}

// addNeighbours adds what the firings before and after say.
func (a *Account) addNeighbours(c *shutter.Candidate, i int) {
	f := a.firings[i]
	if !f.Closed {
		return
	}
	if i > 0 && a.firings[i-1].Closed {
		before := a.firings[i-1]
		gap := f.Open - before.Close - a.lead()
		c.Evidence = append(c.Evidence,
			shutter.Evidence{Weight: repeats(&pair{span: before.Duration()}, &pair{span: f.Duration()}), What: fmt.Sprintf("it lasts %s, and the firing before %s", shutter.TimeText(f.Duration()), shutter.TimeText(before.Duration()))},
			shutter.Evidence{Weight: winding(gap), What: fmt.Sprintf("it is released %.2f s after the firing before closed: winding takes most of a second", gap)})
	}
	if i+1 < len(a.firings) && a.firings[i+1].Closed {
		after := a.firings[i+1]
		c.Evidence = append(c.Evidence,
			shutter.Evidence{Weight: repeats(&pair{span: f.Duration()}, &pair{span: after.Duration()}), What: fmt.Sprintf("the firing after lasts %s", shutter.TimeText(after.Duration()))})
	}
}

// lead is by how much an opening comes after the release, s.
func (a *Account) lead() float64 {
	if a.voice == nil {
		return 0
	}
	return a.voice.lead
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
		if s := &a.r.sounds[i]; s.at >= from && s.at <= to && s.surprise() > 0 {
			all = append(all, shutter.Nearby{At: s.at, Level: s.level, Over: s.stand, Is: a.is(i)})
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
