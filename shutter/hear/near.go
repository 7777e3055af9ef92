package hear

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"earshot/shutter"
	"earshot/shutter/hear/timing"
)

// Near explains why there is no firing at a time, s from the clip's start, or which
// firing is there: the sounds near it, and the pairs of which one could be an end.
func (a *Account) Near(t float64) shutter.Explanation {
	a.learn()
	e := shutter.Explanation{At: t, Sounds: a.nearby(t-around, t+around), Leads: a.onsetLags()}
	if i := a.firingAt(t); i >= 0 {
		e.Notes = append(e.Notes, fmt.Sprintf("this is within firing %d: --explain %d says why that is one", a.number(i), a.number(i)))
	}
	i, ok := a.nearest(t)
	if !ok {
		e.Notes = append(e.Notes, fmt.Sprintf("no sound begins within %g s of it that stands out enough to be an end of a firing", around))
		return e
	}
	if is := a.is(i); is != "" {
		e.Notes = append(e.Notes, fmt.Sprintf("the nearest sound, at %.3f s, is the %s", a.r.sounds[i].at, is))
	}
	e.Candidates = append(a.candidates(i), a.unclosed(i)...)
	e.Notes = append(e.Notes, a.setNotes()...)
	if len(e.Candidates) == 0 {
		e.Notes = append(e.Notes, fmt.Sprintf("no other sound lies %s to %.0f s from the nearest, so it could not be the end of a firing", shutter.TimeText(shortestSpan), longestSpan))
	}
	return e
}

// firingAt is the firing that was going on at a time, −1 for none.
func (a *Account) firingAt(t float64) int {
	return slices.IndexFunc(a.firings, func(f shutter.Firing) bool {
		return t >= f.Open-timing.SameSound && (t <= f.Close+timing.SameSound || !f.Closed && t <= f.Open+timing.SameSound)
	})
}

// nearest is the sound that is meant by a time: one that begins there, or else the
// nearest of the loud ones that stand out, no further than around.
func (a *Account) nearest(t float64) (best int, ok bool) {
	const there, loud = timing.SameSound, 12 // s, dB under the loudest
	loudest := math.Inf(-1)
	for i := range a.r.sounds {
		if s := &a.r.sounds[i]; math.Abs(s.at-t) <= around && s.prominenceOdds() > 0 {
			loudest = math.Max(loudest, s.level)
		}
	}
	off := around
	for i := range a.r.sounds {
		s := &a.r.sounds[i]
		d := math.Abs(s.at - t)
		if d <= off && s.prominenceOdds() > 0 && (d <= there || s.level >= loudest-loud) {
			best, off, ok = i, d, true
		}
	}
	return best, ok
}

// candidates are the likeliest pairs of which sound i is an end, but for those that are
// firings.
func (a *Account) candidates(i int) []shutter.Candidate {
	const most = 3
	type weighed struct {
		pair  pair
		terms []term
		sum   float64
	}
	var all []weighed
	for j := range a.r.sounds {
		p := pair{open: min(i, j), close: max(i, j)}
		span := a.r.sounds[p.close].at - a.r.sounds[p.open].at
		if span < shortestSpan || span > longestSpan || a.isFiring(p) {
			continue
		}
		terms := a.terms(p)
		all = append(all, weighed{p, terms, sumOf(terms)})
	}
	slices.SortStableFunc(all, func(p, q weighed) int { return cmp.Compare(q.sum, p.sum) })
	var told []shutter.Candidate
	for _, w := range all[:min(len(all), most)] {
		told = append(told, a.candidate(w.pair, w.terms, a.whyNot(w.pair, w.terms)))
	}
	return told
}

// unclosed weighs sound i as an opening that nothing closed, where it is in no firing and
// likely an opening.
func (a *Account) unclosed(i int) []shutter.Candidate {
	m := a.model
	if m == nil || a.is(i) != "" || m.open.weight(i) <= 0 {
		return nil
	}
	hung := pair{open: i, close: never}
	why := "no firing: something like a closing follows it, or another firing goes on"
	switch {
	case len(a.found.set) < fewestTaught:
		why = fmt.Sprintf("no firing: it takes %d to know what an opening sounds like that nothing closes, and there are %d", fewestTaught, len(a.found.set))
	case !m.opensAlone(i):
		why = "no firing: it is too little like the openings to be one that nothing closed"
	case !a.r.alone(m, i):
		why = "no firing: it does not come out of silence, as openings do"
	}
	return []shutter.Candidate{a.candidate(hung, a.terms(hung), why)}
}

func (a *Account) isFiring(p pair) bool {
	return slices.ContainsFunc(a.made, func(q pair) bool { return q.open == p.open && q.close == p.close })
}

// whyNot says why a pair that was weighed is no firing.
func (a *Account) whyNot(p pair, terms []term) string {
	if sumOf(terms) <= 0 {
		return "no firing: its evidence is not above 0. Most against it: " + worstOf(terms).words
	}
	open, close := a.r.sounds[p.open].at, a.r.sounds[p.close].at
	for i, f := range a.firings {
		until := f.Close
		if !f.Closed {
			until = f.Open
		}
		if open < until+rearm && f.Open < close+rearm {
			return fmt.Sprintf("no firing: it overlaps firing %d, or leaves less than %g s to wind in, and the set with that firing has more evidence", a.number(i), rearm)
		}
	}
	if len(a.firings) == 0 {
		return "no firing: no set of such pairs in the clip was like the firings of a shutter rather than a clock's, a keyboard's or anything else that comes in pairs"
	}
	return "no firing: the set of firings without it has more evidence: it does not repeat what they do, or leaves sounds like theirs in no firing"
}

// worstOf is what speaks most against a pair, but for what any must overcome.
func worstOf(terms []term) term {
	of := slices.DeleteFunc(slices.Clone(terms), func(t term) bool { return t.name == prior })
	return slices.MinFunc(of, func(x, y term) int { return cmp.Compare(x.value, y.value) })
}
