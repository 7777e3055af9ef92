package hear

import "math"

// othersUsual is how many other sounds as loud as a firing are heard for each firing, on
// average: the shutter is wound, and somebody speaks or puts something down. Common
// practice, no source.
const othersUsual = 3.0

// othersOdds is the evidence against a set from the other sounds as loud in the clip:
// they may all have one cause that is no shutter. The number of other sounds for each
// firing of a shutter is taken as geometrically distributed, so that each sound adds the
// same.
func (m *model) othersOdds(set []pair) float64 {
	return float64(m.countOthers(set)) * math.Log(1+1/othersUsual)
}

// countOthers counts the sounds as loud as the ends of a set that are not part of its
// firings. The set is in time order. A sound that follows another sooner than a shutter
// could be fired again counts as a part of that.
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

// sparse is what a set of few firings gets back of priorOdds, which is made for the many
// pairs of a clip full of sounds. How many other sounds there are is a term of its own.
const sparse = 1.5

// fewOdds is the evidence for a set of one firing or two, beyond that of its pairs. Two
// that last as long as each other repeat as a shutter does. The parts of one tick, or of
// a thing falling, do so too, and so brief pairs get nothing. That noise hid a missing
// buzz is no excuse here: there are no other firings to show whether this shutter buzzes.
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

// stranger is the evidence against a set from one sound that is as like its ends as they
// are like each other and yet belongs to no firing.
const stranger = 2.5

// unexplained is the evidence against a set from the strangers that it leaves. In a
// reflex some such sounds are explained: the blades close on each release, and open again
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
