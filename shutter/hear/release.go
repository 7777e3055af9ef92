package hear

import (
	"cmp"
	"math"
	"slices"
)

// On a reflex's release the blades close; a lead later they open for the exposure. These
// are the bounds of the lead, and how much it scatters in one camera, in s (common
// practice, no source: 60 to 100 ms).
const (
	shortestLead = 0.04
	longestLead  = 0.15
	leadScatter  = 0.003
	fewestLeads  = 3 // openings from which it tells that their leads are the same
	leadChoice   = 3 // evidence against a lead, since it was chosen from many possible ones
)

// findLead is the time by which most openings come after a sound of a reflex's release,
// 0 where there is none such. On the release the blades close, and sound like a closing
// unless the mirror drowns them. Of several such times it is the one at which sounds are
// most like the closings. Where openings are few, only sounds like closings count. Where
// sounds are like closings, half of the openings are enough: the other half may be those
// of the view, which reopens after each release.
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

// leadCandidate is the time from a sound to an opening, s, and how like a closing that
// sound is.
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

// release looks before an opening for the sound of a reflex's release. It returns that and
// the evidence that it is one, as a logarithm of odds, 0 for none. Three things count: how
// well the lead fits, against any of the sounds there fitting by chance; how like the sound
// is to the blades closing; and how unlike it is to the first sounds of the other releases.
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

// released is the evidence that p is opened by a reflex's release, 0 for none. The release
// may drown the opening, and puts sounds before it. So the evidence against p from these
// is given back. It is the release that must come out of silence: what comes right before
// it speaks against p, as what follows a closing does.
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
