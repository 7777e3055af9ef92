package shutter

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// told tells a session's settings wrongly: what it returns is told of the firings.
type mistelling struct {
	name string
	tell func(rng *rand.Rand, s simSession) (simSession, []Step)
}

func only(s simSession, keep func(label string) bool) simSession {
	var one simSession
	for i, f := range s.firings {
		if keep(s.truth[i]) {
			one.hear(f, s.truth[i], s.faulty[i])
		}
	}
	return one
}

func TestXMisfitRates(t *testing.T) {
	shift := func(by float64) func(rng *rand.Rand, s simSession) (simSession, []Step) {
		return func(rng *rand.Rand, s simSession) (simSession, []Step) {
			var steps []Step
			for _, st := range s.steps {
				st.Mark.Nominal *= by
				st.Mark.Label = fmt.Sprint(st.Mark.Nominal)
				steps = append(steps, st)
			}
			return s, steps
		}
	}
	cut := func(by int, untold bool) func(rng *rand.Rand, s simSession) (simSession, []Step) {
		return func(rng *rand.Rand, s simSession) (simSession, []Step) {
			steps := s.steps
			if untold {
				steps = s.untold()
			}
			gone := map[string]bool{}
			for _, st := range steps[max(0, len(steps)-by):] {
				gone[st.Mark.Label] = true
			}
			return only(s, func(l string) bool { return !gone[l] }), steps
		}
	}
	late := func(by int, untold bool) func(rng *rand.Rand, s simSession) (simSession, []Step) {
		return func(rng *rand.Rand, s simSession) (simSession, []Step) {
			steps := s.steps
			if untold {
				steps = s.untold()
			}
			gone := map[string]bool{}
			for _, st := range steps[:by] {
				gone[st.Mark.Label] = true
			}
			return only(s, func(l string) bool { return !gone[l] }), steps
		}
	}
	for _, m := range []mistelling{
		{"as it was, counts", func(_ *rand.Rand, s simSession) (simSession, []Step) { return s, s.steps }},
		{"as it was, no counts", func(_ *rand.Rand, s simSession) (simSession, []Step) { return s, s.untold() }},
		{"one setting right", func(rng *rand.Rand, s simSession) (simSession, []Step) {
			st := s.steps[rng.IntN(len(s.steps))]
			return only(s, func(l string) bool { return l == st.Mark.Label }), []Step{st}
		}},
		{"one setting right nocount", func(rng *rand.Rand, s simSession) (simSession, []Step) {
			st := s.steps[rng.IntN(len(s.steps))]
			st.Count = 0
			return only(s, func(l string) bool { return l == st.Mark.Label }), []Step{st}
		}},
		{"shift -3", shift(1. / 8)}, {"shift -2", shift(1. / 4)}, {"shift -1", shift(1. / 2)}, {"shift +1", shift(2)}, {"shift +2", shift(4)}, {"shift +3", shift(8)},
		{"cut short by 1", cut(1, false)}, {"cut short by 3", cut(3, false)}, {"cut short by 3, no counts", cut(3, true)},
		{"late by 1", late(1, false)}, {"late by 3", late(3, false)}, {"late by 3, no counts", late(3, true)},
		{"first told", func(_ *rand.Rand, s simSession) (simSession, []Step) { return s, s.steps[:1] }},
		{"first told, no count", func(_ *rand.Rand, s simSession) (simSession, []Step) { return s, s.untold()[:1] }},
		{"two told", func(_ *rand.Rand, s simSession) (simSession, []Step) { return s, s.steps[:2] }},
		{"two told, no count", func(_ *rand.Rand, s simSession) (simSession, []Step) { return s, s.untold()[:2] }},
		{"one too few", func(_ *rand.Rand, s simSession) (simSession, []Step) { return s, s.steps[:len(s.steps)-1] }},
		{"one too few, no count", func(_ *rand.Rand, s simSession) (simSession, []Step) { return s, s.untold()[:len(s.steps)-1] }},
	} {
		var n, mis, firings, right, doubt, wrong int
		for k := range *layingSessions {
			rng := rand.New(rand.NewPCG(7, uint64(k)))
			s, steps := m.tell(rng, simulateSession(rng))
			if len(s.firings) == 0 {
				continue
			}
			n++
			l := Lay(s.firings, steps)
			if len(l.Misfits) > 0 {
				mis++
			}
			bad := map[int]bool{}
			for _, d := range l.Doubts {
				bad[d.Firing] = true
			}
			firings += len(s.firings)
			doubt += len(bad)
			for _, r := range l.Runs {
				for _, i := range r.Firings {
					switch {
					case bad[i]:
					case r.Mark.Label == s.truth[i]:
						right++
					default:
						wrong++
					}
				}
			}
		}
		f := float64(firings) / 100
		t.Logf("%-28s %d sessions, misfit %5.1f %%; firings right %5.1f doubt %5.1f wrong %5.1f", m.name, n, 100*float64(mis)/float64(n), float64(right)/f, float64(doubt)/f, float64(wrong)/f)
	}
}
