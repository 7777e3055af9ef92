package assign

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"earshot/shutter"
)

// telling is what is told of a sitting, and how much of it was recorded.
type telling func(rng *rand.Rand, s simSitting) (simSitting, []shutter.Step)

// onlyAt returns the sitting with the firings at the steps alone.
func (s simSitting) onlyAt(steps []shutter.Step) (part simSitting) {
	for i, f := range s.firings {
		if slices.ContainsFunc(steps, func(st shutter.Step) bool { return st.Mark.Label == s.truth[i] }) {
			part.hear(f, s.truth[i], s.faulty[i])
		}
	}
	return part
}

func tellMarksOff(by float64) telling {
	return func(_ *rand.Rand, s simSitting) (simSitting, []shutter.Step) {
		steps := slices.Clone(s.steps)
		for i := range steps {
			m := &steps[i].Mark
			m.Nominal *= by
			m.Label = fmt.Sprintf("%gs", m.Nominal)
		}
		return s, steps
	}
}

func tellFirst(settings int) telling {
	return func(_ *rand.Rand, s simSitting) (simSitting, []shutter.Step) {
		if settings < 0 {
			settings += len(s.steps)
		}
		return s, s.steps[:settings]
	}
}

func recordFrom(first, missingAtEnd int) telling {
	return func(_ *rand.Rand, s simSitting) (simSitting, []shutter.Step) {
		return s.onlyAt(s.steps[first : len(s.steps)-missingAtEnd]), s.steps
	}
}

func tellOne(rng *rand.Rand, s simSitting) (simSitting, []shutter.Step) {
	at := rng.IntN(len(s.steps))
	steps := s.steps[at : at+1]
	return s.onlyAt(steps), steps
}

func tellAll(_ *rand.Rand, s simSitting) (simSitting, []shutter.Step) { return s, s.steps }

// What is told rightly is hardly ever doubted, and what is told wrongly mostly is. One
// mark off is not asked for: such a shutter is nothing rare.
func TestSimulatedTellingsAreDoubtedWhereTheyAreWrong(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name                string
		tell                telling
		maxDoubt, maxAstray float64 // shares of the firings
	}{
		{"told rightly", tellAll, 0.02, 0.005},
		{"one setting told, rightly", tellOne, 0.01, 0.005},
		{"two marks too slow", tellMarksOff(4), 1, 0.2},
		{"two marks too fast", tellMarksOff(1.0 / 4), 1, 0.2},
		{"three marks too slow", tellMarksOff(8), 1, 0.05},
		{"three marks too fast", tellMarksOff(1.0 / 8), 1, 0.05},
		{"the first setting told alone", tellFirst(1), 1, 0.02},
		{"the first two told", tellFirst(2), 1, 0.01},
		{"the last not told", tellFirst(-1), 0.5, 0.05},
		{"the recording lacks the last setting", recordFrom(0, 1), 0.4, 0.005},
		{"the recording lacks the last two", recordFrom(0, 2), 0.1, 0.005},
		{"the recording lacks the first two", recordFrom(2, 0), 0.7, 0.01},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := rateLaying(sittingsLaid()/2, 7, c.tell)
			t.Logf("%d firings: right %.2f %%, in doubt %.2f %%, wrong %.2f %%", r.firings, 100*r.share(r.right), 100*r.share(r.doubt), 100*r.share(r.wrong))
			if r.share(r.wrong) > c.maxAstray || r.share(r.doubt) > c.maxDoubt {
				t.Errorf("wrong %.2f %%, in doubt %.2f %%; at most %.1f %% and %.0f %% may be", 100*r.share(r.wrong), 100*r.share(r.doubt), 100*c.maxAstray, 100*c.maxDoubt)
			}
		})
	}
}
