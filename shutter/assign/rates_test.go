package assign

import (
	"flag"
	"math/rand/v2"
	"testing"

	"earshot/shutter"
)

var layingSittings = flag.Int("laying-sittings", 150, "simulated sittings whose firings are laid against the settings told")

// sittingsLaid is how many sittings are simulated.
func sittingsLaid() int {
	if testing.Short() {
		return *layingSittings / 3
	}
	return *layingSittings
}

// layingRates counts what became of the firings of many sittings: at their mark and
// not in doubt; in doubt; at another mark, or a sound that is no firing at any.
type layingRates struct{ firings, right, doubt, wrong int }

func (r layingRates) share(n int) float64 { return float64(n) / float64(r.firings) }

func rateLaying(sittings int, seed uint64, tell telling) (r layingRates) {
	for k := range sittings {
		rng := rand.New(rand.NewPCG(seed, uint64(k)))
		s, steps := tell(rng, simulateSitting(rng))
		l := Lay(s.firings, steps)
		at, doubt := make([]string, len(s.firings)), make([]bool, len(s.firings))
		for _, run := range l.Runs {
			for _, i := range run.Firings {
				at[i] = run.Mark.Label
			}
		}
		for _, d := range l.Doubts {
			doubt[d.Firing] = true
		}
		for i, truth := range s.truth {
			r.firings++
			switch {
			case doubt[i]:
				r.doubt++
			case at[i] == truth:
				r.right++
			default:
				r.wrong++
			}
		}
	}
	return r
}

// The bounds are what is asked of the laying. That hardly any firing is in doubt
// without counts, too, keeps doubt from being an easy way out.
func TestSimulatedFiringsAreAtTheirSpeedOrInDoubt(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name     string
		tell     telling
		maxDoubt float64
	}{
		{"counts told", tellAll, 0.02},
		{"no counts told", func(_ *rand.Rand, s simSitting) (simSitting, []shutter.Step) { return s, s.untold() }, 0.05},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := rateLaying(sittingsLaid(), 1, c.tell)
			t.Logf("%d firings of %d sittings: right %.2f %%, in doubt %.2f %%, wrong %.3f %%", r.firings, sittingsLaid(),
				100*r.share(r.right), 100*r.share(r.doubt), 100*r.share(r.wrong))
			if r.share(r.wrong) > 0.005 {
				t.Errorf("%d of %d firings are wrong and not in doubt, at most 0.5 %% may be", r.wrong, r.firings)
			}
			if r.share(r.doubt) > c.maxDoubt {
				t.Errorf("%d of %d firings are in doubt, at most %.0f %% may be", r.doubt, r.firings, 100*c.maxDoubt)
			}
		})
	}
}
