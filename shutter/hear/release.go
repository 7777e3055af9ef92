package hear

import (
	"cmp"
	"math"
	"slices"
)

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

// findLead is the time by which the openings come after the sounds of a reflex's
// release, where most of them do by nearly the same: the blades close with the
// sound of a closing, or drowned by what the mirror does. Of several such times it
// is the one at which sounds are most like the closings, and 0 where there is none.
// Of few openings it takes that likeness to tell; with it half of them will do, as the
// view reopens once for each that is released.
func (m *model) findLead(opens []int) float64 {
	var leads []leadCandidate
	for _, i := range opens {
		for j := i - 1; j >= 0 && m.r.sounds[i].at-m.r.sounds[j].at < longestLead; j-- {
			if like := m.likeClosing(j); m.releases(i, j) && (len(opens) >= fewestLeads || like > 0) {
				leads = append(leads, leadCandidate{m.r.sounds[i].at - m.r.sounds[j].at, like})
			}
		}
	}
	slices.SortFunc(leads, func(a, b leadCandidate) int { return cmp.Compare(a.time, b.time) })
	enough := max(2*len(opens)/3, min(len(opens), fewestLeads)-1) + 1
	best, most := 0.0, 0.0
	for i := range leads {
		n, alike, sum := 0, 0, 0.0
		for i+n < len(leads) && leads[i+n].time < leads[i].time+4*leadScatter {
			if leads[i+n].like > 0 {
				alike++
			}
			sum += 1 + leads[i+n].like
			n++
		}
		if (n >= enough || alike >= max(fewestLeads, len(opens)/2)) && sum > most {
			best, most = leads[i+n/2].time, sum
		}
	}
	return best
}

// lead is the time from a sound to an opening, s, and how like a closing that is.
type leadCandidate struct{ time, like float64 }

// likeClosing is the evidence that sound i is the blades closing, where there is any.
func (m *model) likeClosing(i int) float64 {
	return within(m.close.weight(i), 0, math.Max(0, m.r.sounds[i].prominenceOdds()))
}

// releases tells whether sound j may be one of the release before opening i.
func (m *model) releases(i, j int) bool {
	s, open := &m.r.sounds[j], &m.r.sounds[i]
	return open.at-s.at >= shortestLead && s.prominenceOdds() > 0 && s.level > open.level-asLoud
}

// release looks before an opening for the sound of a reflex's release, and returns
// it and the evidence that it is that, as a logarithm of odds, 0 for none: how well
// the lead fits, against one by chance of any of the sounds there, how like it is to
// the blades closing, and how unlike what is heard first of the other releases.
func (m *model) release(open int) (sound int, weight float64) {
	if m.releaseLead == 0 {
		return 0, 0
	}
	at, near := m.r.sounds[open].at, 0.0
	for i := open - 1; i >= 0 && at-m.r.sounds[i].at < longestLead; i-- {
		if !m.releases(open, i) {
			continue
		}
		near++
		off := at - m.r.sounds[i].at - m.releaseLead
		w := math.Log(normal(off/leadScatter) / leadScatter * (longestLead - shortestLead))
		w += m.likeClosing(i)
		if m.first != nil {
			w += math.Min(0, m.first.weight(i))
		}
		if w > weight {
			sound, weight = i, w
		}
	}
	return sound, math.Max(0, weight-math.Log(math.Max(1, near)))
}

// released is the evidence that p opens as a reflex's release lets it, 0 for none.
// That drowns the opening, and sets sounds before it, of which neither then speaks
// against p. What comes before the release speaks against it, as what follows a closing
// does: it is the release that comes out of silence.
func (m *model) released(p *pair) float64 {
	_, w := m.release(p.open)
	if w > 0 {
		w -= p.before
		if m.unready(p.open) {
			w -= followed
		}
	}
	return w
}

// unready tells whether something as loud as an opening is heard right before all that
// its release may have set off.
func (m *model) unready(open int) bool {
	s := &m.r.sounds[open]
	for i := open - 1; i >= 0 && s.at-m.r.sounds[i].at < 2*longestLead; i-- {
		t := &m.r.sounds[i]
		if s.at-t.at > longestLead && t.prominenceOdds() > 0 && t.level > s.level-asLoud {
			return true
		}
	}
	return false
}

// firsts is the class of what is heard first of the releases before openings, in time
// order; nil where none is.
func (m *model) firsts(opens []int) *class {
	var all []int
	for _, i := range opens {
		if j, w := m.release(i); w > 0 {
			all = append(all, j)
		}
	}
	if len(all) == 0 {
		return nil
	}
	return m.r.class(slices.Compact(all))
}
