package shutter

import (
	"cmp"
	"math"
	"slices"
)

// voice is what the openings and the closings of one shutter sound like, and how
// unusual that is among the other sounds of the clip.
type voice struct {
	open, close *class
	alike       float64 // evidence against what does not buzz, for being alike
	lead        float64 // s from a reflex's first sound to the opening; 0 where there is none
	r           *room
}

// Bounds of the time from a reflex's release, on which the blades close, to the
// opening for the exposure, and how well one camera keeps to its own, in s
// (common practice, no source: 60 to 100 ms).
const (
	shortestLead = 0.04
	longestLead  = 0.15
	leadScatter  = 0.003
	fewestLeads  = 3 // openings from which a lead shows by being the same,
	leadChoice   = 3 // which is no wonder of one among the many that there may be
)

// voice learns what a shutter sounds like from a set of its firings, at least one.
func (r *room) voice(set []pair) *voice {
	var opens, closes []int
	for _, p := range set {
		opens = append(opens, p.open)
		closes = append(closes, p.close)
	}
	v := &voice{r: r}
	if r.kind == FocalPlane {
		both := slices.Concat(opens, closes)
		slices.Sort(both)
		v.open = r.class(both)
		v.close = v.open
	} else {
		v.open, v.close = r.class(opens), r.class(closes)
		v.alike = alikeness(v.open, v.close)
	}
	v.lead = v.findLead(opens)
	return v
}

// findLead is the time by which the openings come after the sounds of a reflex's
// release, where most of them do by nearly the same: the blades close with the
// sound of a closing, or drowned by what the mirror does. Of several such times it
// is the one at which sounds are most like the closings, and 0 where there is none.
// Of few openings it takes that likeness to tell.
func (v *voice) findLead(opens []int) float64 {
	var leads []lead
	for _, i := range opens {
		for j := i - 1; j >= 0 && v.r.sounds[i].at-v.r.sounds[j].at < longestLead; j-- {
			if like := v.likeClosing(j); v.releases(i, j) && (len(opens) >= fewestLeads || like > 0) {
				leads = append(leads, lead{v.r.sounds[i].at - v.r.sounds[j].at, 1 + like})
			}
		}
	}
	slices.SortFunc(leads, func(a, b lead) int { return cmp.Compare(a.time, b.time) })
	enough := max(2*len(opens)/3, min(len(opens), fewestLeads)-1) + 1
	best, most := 0.0, 0.0
	for i := range leads {
		n, sum := 0, 0.0
		for i+n < len(leads) && leads[i+n].time < leads[i].time+4*leadScatter {
			sum += leads[i+n].weight
			n++
		}
		if n >= enough && sum > most {
			best, most = leads[i+n/2].time, sum
		}
	}
	return best
}

// lead is the time from a sound to an opening, s, and how much it counts.
type lead struct{ time, weight float64 }

// likeClosing is the evidence that sound i is the blades closing, where there is any.
func (v *voice) likeClosing(i int) float64 {
	return within(v.close.weight(i), 0, math.Max(0, v.r.sounds[i].surprise()))
}

// releases tells whether sound j may be one of the release before opening i.
func (v *voice) releases(i, j int) bool {
	s, open := &v.r.sounds[j], &v.r.sounds[i]
	return open.at-s.at >= shortestLead && s.surprise() > 0 && s.level > open.level-asLoud
}

// release looks before an opening for the sound of a reflex's release, and returns
// it and the evidence that it is that, as a logarithm of odds, 0 for none: how well
// the lead fits, against one by chance of any of the sounds there, and how like it is
// to the blades closing.
func (v *voice) release(open int) (sound int, weight float64) {
	if v.lead == 0 {
		return 0, 0
	}
	at, near := v.r.sounds[open].at, 0.0
	for i := open - 1; i >= 0 && at-v.r.sounds[i].at < longestLead; i-- {
		if !v.releases(open, i) {
			continue
		}
		near++
		off := at - v.r.sounds[i].at - v.lead
		w := math.Log(normal(off/leadScatter) / leadScatter * (longestLead - shortestLead))
		w += v.likeClosing(i)
		if w > weight {
			sound, weight = i, w
		}
	}
	return sound, math.Max(0, weight-math.Log(math.Max(1, near)))
}

// likeness is the evidence for p from how like this shutter its ends sound, as a
// logarithm of odds. One end that is not more like than chance rules it out: what
// would be the other's fellow is another sound.
func (v *voice) likeness(p *pair) float64 {
	const toChance, ruledOut, unreleased = -0.5, -20, -6
	open := v.open.weight(p.open)
	if open < toChance {
		return ruledOut
	}
	close := v.close.weight(p.close)
	if close < toChance {
		return ruledOut
	}
	sum := open + close
	if v.lead == 0 {
		return sum
	}
	if w := v.released(p); w > 0 {
		return sum + w
	}
	return sum + unreleased
}

// released is the evidence that p opens as a reflex's release lets it, 0 for none.
// That drowns the opening, and sets sounds before it, of which neither then speaks
// against p.
func (v *voice) released(p *pair) float64 {
	_, w := v.release(p.open)
	if w > 0 {
		w -= p.before
	}
	return w
}

// alikeness is the evidence against firings without a buzz whose openings sound
// like their closings: two of a kind are more likely a clock, or somebody knocking.
func alikeness(open, close *class) float64 {
	const distinct, slope, most = 2.2, 4, 5
	apart := distance(&open.centre, &close.centre) / math.Hypot(open.scatter(likeSpread), close.scatter(likeSpread)) * math.Sqrt2
	return within((distinct-apart)*slope, 0, most)
}
