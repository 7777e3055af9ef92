package hear

import "math"

// besides is how many times something as loud as a firing is heard for each firing,
// on average: it is wound, and somebody speaks or puts something down. Common
// practice, no source.
const othersUsual = 3.0

// amid is the evidence against a set from all that is heard as loud besides. The
// number of other sounds for a firing taken as geometric, each one more makes that
// much less likely that the clip is of a shutter being fired, and not of what makes
// those sounds.
func (m *model) othersOdds(set []pair) float64 {
	return float64(m.countOthers(set)) * math.Log(1+1/othersUsual)
}

// others is how many times something as loud as the ends of a set, which is in time
// order, was heard besides its firings: what follows sooner than a shutter could be
// fired again is of the same.
func (m *model) countOthers(set []pair) int {
	loud := math.Min(m.open.centre.level, m.close.centre.level) - asLoud
	n, last, next := 0, math.Inf(-1), 0
	for i := range m.r.sounds {
		s := &m.r.sounds[i]
		for next < len(set) && set[next].close < i {
			next++
		}
		if s.level < loud || s.prominenceOdds() <= 0 {
			continue
		}
		fired := next < len(set) && i >= set[next].open || m.fastSounds[i]
		if !fired && s.at-last > rearm {
			n++
		}
		last = s.at
	}
	return n
}

// sparse is the evidence for a few firings that priorOdds, made for the many pairs of a
// clip full of sounds, asks too much. What else was heard counts by itself.
const sparse = 1.5

// fewOdds is what speaks for a set of one firing or two besides their own evidence,
// less the want of a buzz, which no other firing shows to be the shutter's way: two
// that last as long as each other repeat as a shutter does. The parts of one tick,
// or of a thing falling, do so too, and are many in an empty room.
func (m *model) fewOdds(set []pair) float64 {
	each, together := 0.0, 0.0
	for i := range set {
		each -= set[i].excused
		if set[i].span < tick {
			continue
		}
		each += sparse
		if i > 0 {
			together += repeats(&set[i-1], &set[i])
		}
	}
	return each/float64(len(set)) + together
}

// stranger is the evidence against a set from one sound as like its ends that
// belongs to no firing.
const stranger = 2.5

// unexplained is the evidence against a set from the sounds that are as like its
// openings or closings as most of these are, and yet belong to no firing. Where a
// reflex was heard, its blades have closed on each release, and have opened again
// once between two firings.
func (m *model) unexplained(set []pair) float64 {
	known := map[int]bool{}
	for i := range set {
		known[set[i].open], known[set[i].close] = true, true
		if release, weight := m.release(set[i].open); weight > 0 {
			known[release] = true
		}
	}
	open, close := m.open.most(), m.close.most()
	strangers, reopened := 0, 0
	for i := range m.r.sounds {
		if known[i] || m.fastSounds[i] || m.r.sounds[i].prominenceOdds() <= 0 {
			continue
		}
		switch {
		case m.open.distance(i) <= open:
			reopened++
		case m.close.distance(i) <= close:
			strangers++
		}
	}
	if m.releaseLead > 0 {
		reopened = max(0, reopened-len(set)-1)
	}
	return stranger * float64(strangers+reopened)
}
