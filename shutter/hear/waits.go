package hear

import (
	"math"
	"slices"
)

// What a pair may be that is no firing, but the time somebody took from winding a
// shutter to releasing it, or from one release to the next. Common practice, no source.
const (
	soonest  = 0.4  // s: nobody does so sooner
	dialled  = 0.3  // odds a step, as a logarithm, from which the steps are a dial's
	farApart = 2.5  // stops between successive firings of which one tells nothing of the other,
	handful  = 3    // and so few, by themselves,
	repeated = 0.12 // must be as long as each other, in stops,
	stopped  = 0.3  // or a stop apart, give or take this
)

// withoutWaits is a set without the pairs that are the time somebody waited. Those are
// long and don't buzz, and are neither as long as each other nor in the steps of a dial.
// Each part of a set is looked at by itself: that firings much faster repeat tells nothing
// of the long ones. It is empty where hardly any pairs are left: then most were waits.
func withoutWaits(set []pair) []pair {
	var kept []pair
	for _, part := range parts(set) {
		apart := len(part) <= handful && len(part) < len(set)
		if !buzzes(part) && (!timed(part) || apart && !evenly(part)) {
			part = slices.DeleteFunc(slices.Clone(part), func(p pair) bool { return p.span > soonest })
		}
		kept = append(kept, part...)
	}
	if len(kept) < len(set) && len(kept) <= few {
		return nil
	}
	return kept
}

// waits tells whether a pair is only the time that somebody waited: it is long, doesn't
// buzz, and is far from the spans of all the firings in set.
func (p *pair) waits(set []pair) bool {
	return p.span > soonest && !p.buzzes() &&
		!slices.ContainsFunc(set, func(q pair) bool { return math.Abs(math.Log2(p.span/q.span)) < farApart })
}

// parts divides a set where successive firings are too far apart to tell of each other.
func parts(set []pair) (all [][]pair) {
	for len(set) > 0 {
		n := 1
		for n < len(set) && stepTo(set, n) < farApart {
			n++
		}
		all = append(all, set[:n])
		set = set[n:]
	}
	return all
}

// shows tells whether a set shows that a shutter timed it: it buzzes, or a part of it
// repeats or goes in the steps of a dial.
func shows(set []pair) bool {
	return buzzes(set) || slices.ContainsFunc(parts(set), func(part []pair) bool { return len(part) > few && timed(part) })
}

// buzzes tells whether an escapement was heard in any of the pairs.
func buzzes(set []pair) bool {
	return slices.ContainsFunc(set, func(p pair) bool { return p.buzzes() })
}

// buzzes tells whether an escapement was heard in the pair.
func (p *pair) buzzes() bool { return p.heard() >= 0.5 }

// stepTo is by how many stops the span of pair i differs from that before it.
func stepTo(set []pair, i int) float64 { return math.Abs(math.Log2(set[i].span / set[i-1].span)) }

// timed tells whether the spans of pairs are what a shutter timed rather than a hand.
func timed(set []pair) bool {
	if len(set) == 2 {
		return evenly(set) || repeats(&set[0], &set[1]) > 0
	}
	return evenly(set) || steady(set) || dialOdds(set) > dialled*float64(len(set)-1)
}

// evenly tells whether every span is as long as the one before, or about a stop away.
func evenly(set []pair) bool {
	for i := 1; i < len(set); i++ {
		if step := stepTo(set, i); step > repeated && math.Abs(step-1) > stopped {
			return false
		}
	}
	return true
}
