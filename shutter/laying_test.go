package shutter

import (
	"math/rand/v2"
	"testing"
)

// layingRates counts what became of the firings of many sessions.
type layingRates struct{ firings, right, doubt, wrong, wrongSpurious int }

func rateLaying(sessions int, seed uint64, told func(simSession) []Step) (r layingRates) {
	for k := range sessions {
		s := simulateSession(rand.New(rand.NewPCG(seed, uint64(k))))
		l := Lay(s.firings, told(s))
		got := make([]string, len(s.firings))
		for _, run := range l.Runs {
			for _, i := range run.Firings {
				got[i] = run.Mark.Label
			}
		}
		for _, d := range l.Doubts {
			got[d.Firing] = "?"
		}
		for i, truth := range s.truth {
			r.firings++
			switch {
			case got[i] == "?":
				r.doubt++
			case got[i] == truth:
				r.right++
			default:
				r.wrong++
				if truth == "" {
					r.wrongSpurious++
				}
			}
		}
	}
	return r
}

func TestFiringsOfSimulatedShuttersAreAtTheirSpeedOrInDoubt(t *testing.T) {
	for _, c := range []struct {
		name  string
		steps func(simSession) []Step
	}{{"counts told", func(s simSession) []Step { return s.steps }}, {"no counts told", simSession.untold}} {
		t.Run(c.name, func(t *testing.T) {
			r := rateLaying(1000, 1, c.steps)
			n := float64(r.firings)
			t.Logf("%d firings: right %.3f %%, in doubt %.3f %%, wrong %.3f %% (%d, spurious %d)", r.firings, 100*float64(r.right)/n, 100*float64(r.doubt)/n, 100*float64(r.wrong)/n, r.wrong, r.wrongSpurious)
		})
	}
}
