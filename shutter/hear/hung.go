package hear

import (
	"context"
	"math"
	"sort"

	"earshot/shutter/hear/timing"
)

// never stands for the closing of an opening that nothing closed.
const never = -1

// openingCertain is the evidence, 20 to 1, from which a sound is an opening though nothing
// closes it.
const openingCertain = 3

// restless is the unrest before a single sound from which it is not an opening. A single
// sound has, unlike a pair, nothing else to show that it is one.
const restless = 1

// fewestTaught is how many firings it takes to know what an opening sounds like.
const fewestTaught = 3

// missed looks for openings like those of the set that are in none of the firings known,
// both in time order.
//
//   - Where a sound like the closings follows before the next firing, the two are one more
//     firing, whatever else was heard between.
//   - Where it follows so soon before the next that no shutter could be wound again, they
//     are the view of a reflex, which opens as it is wound and closes on the release.
//   - Where none follows, the shutter hung open.
//
// Among brief firings there are exceptions: an opening that is as like a closing may be a
// firing too fast to tell the two apart, and a long pair the time between two such. It
// ends early once ctx is done.
func (r *recordedClip) missed(ctx context.Context, set, known []pair) (more, hung []pair) {
	if len(set) < fewestTaught {
		return nil, nil
	}
	m, amongBrief := r.modelOf(set), allBrief(set)
	for i := range r.sounds {
		if ctx.Err() != nil {
			return nil, nil
		}
		s := &r.sounds[i]
		if s.prominenceOdds() <= 0 || !m.opensAlone(i) || r.within(known, s.at) || !r.alone(m, i) {
			continue
		}
		switch p := r.closed(m, known, i); {
		case p.close == never && !(amongBrief && m.close.weight(i) > 0):
			hung = append(hung, p)
		case p.close == never, amongBrief && p.waits(set):
		case !r.within(known, r.sounds[p.close].at):
			more = append(more, p)
		}
	}
	return more, hung
}

// opensAlone tells whether sound i is enough like an opening to be one that nothing closed.
func (m *model) opensAlone(i int) bool {
	return m.open.weight(i) >= openingCertain && m.open.weight(i) > m.close.weight(i)
}

// closed pairs an opening with the first sound like a closing after it, before the next
// firing opens. Its close is never where there is none.
func (r *recordedClip) closed(m *model, known []pair, open int) pair {
	from := r.sounds[open].at
	until := from + longestSpan
	if next := sort.Search(len(known), func(k int) bool { return known[k].open > open }); next < len(known) {
		until = math.Min(until, r.sounds[known[next].open].at-timing.SameSound)
	}
	for j := open + 1; j < len(r.sounds) && r.sounds[j].at < until; j++ {
		s := &r.sounds[j]
		if s.at-from >= shortestSpan && s.prominenceOdds() > 0 && m.close.weight(j) > 0 {
			buzz, _ := r.buzz(&r.sounds[open], s)
			return pair{open: open, close: j, span: s.at - from, buzz: buzz}
		}
	}
	return pair{open: open, close: never}
}

// within tells whether t lies in one of the firings, in time order, or too soon
// before or after for another.
func (r *recordedClip) within(set []pair, t float64) bool {
	n := sort.Search(len(set), func(i int) bool { return r.sounds[set[i].open].at-rearm >= t })
	return n > 0 && t < r.sounds[set[n-1].close].at+rearm
}

// alone tells whether an opening comes as those of firings do: out of silence, or
// after the release of a reflex where this is one. Blades that reopen as a reflex
// is wound do so amid clicks.
func (r *recordedClip) alone(m *model, i int) bool {
	s := &r.sounds[i]
	if r.unrest(s) > restless || r.neighbours(i, -1, 0, s.level, 0).alike > 1 {
		return false
	}
	if m.releaseLead > 0 {
		_, weight := m.release(i)
		return weight >= openingCertain
	}
	for j := i - 1; j >= 0 && s.at-r.sounds[j].at < rearm; j-- {
		if p := &r.sounds[j]; s.at-p.at > timing.SameSound && p.prominenceOdds() > 0 && p.level > s.level-10 {
			return false
		}
	}
	return true
}
