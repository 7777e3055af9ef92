package assign

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"earshot/shutter"
)

func TestFiringsNobodyToldTheSpeedOfTakeTheNearestMark(t *testing.T) {
	for _, c := range []struct {
		name      string
		durations []float64
		want      string
	}{
		{"runs of like firings", []float64{1.2, 1.21, 0.6, 0.61, 0.3}, "1: 0 1; 1/2: 2 3; 1/4: 4"},
		{"a shutter a whole stop slow passes for its neighbour", []float64{2, 2, 1, 1}, "2s: 0 1; 1: 2 3"},
		{"one series for the whole lens", []float64{1, 1, 0.5, 0.5, 0.2, 0.2, 0.1, 0.1, 0.04, 0.04, 0.02, 0.02}, "1: 0 1; 1/2: 2 3; 1/5: 4 5; 1/10: 6 7; 1/25: 8 9; 1/50: 10 11"},
		{"the modern one where both fit", []float64{1, 1, 0.5, 0.5, 0.22, 0.22}, "1: 0 1; 1/2: 2 3; 1/4: 4 5"},
		{"a lone odd firing stays in the run around it", []float64{1, 1, 0.3, 1, 0.5}, "1: 0 1 2 3; 1/2: 4"},
		{"also near the start of a run", []float64{1, 0.3, 1, 1}, "1: 0 1 2 3"},
		{"but one firing each way is the dial going back", []float64{1, 0.5, 1}, "1: 0; 1/2: 1; 1: 2"},
		{"an odd one at the end is by itself", []float64{1, 1, 1, 0.3}, "1: 0 1 2; 1/4: 3"},
		{"one that never closed belongs to the run around it", []float64{1, 0, 1, 0.5}, "1: 0 1 2; 1/2: 3"},
		{"between two runs it has no place", []float64{1, 1, 0, 0.5, 0.5}, "1: 0 1; 1/2: 3 4; -: 2"},
		{"in a single run it has one", []float64{1, 1, 0}, "1: 0 1 2"},
		{"alone it has none", []float64{0}, "-: 0"},
		{"far off the dial there is no mark", []float64{20, 20, 1, 1}, "1: 2 3; -: 0 1"},
		{"a run that creeps keeps one mark", []float64{0.9, 1.0, 1.15, 1.3}, "1: 0 1 2 3"},
		{"erratic firings of one mark are one run", []float64{0.8, 1.3, 0.75, 1.35}, "1: 0 1 2 3"},
		{"nothing heard", nil, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := LayNearest(layingOf(c.durations...))
			if got := layingText(l); got != c.want {
				t.Errorf("laid %q, want %q", got, c.want)
			}
			for _, r := range l.Runs {
				if !r.Assumed {
					t.Errorf("run %v is not marked as assumed", r)
				}
			}
		})
	}
}

func TestTheOlderSeriesIsNamedWhereItIsTaken(t *testing.T) {
	if l := LayNearest(layingOf(1, 0.5, 0.2, 0.1, 0.04, 0.02)); len(l.Warnings) != 1 {
		t.Errorf("warns %q, want one line about the older series", l.Warnings)
	}
	if l := LayNearest(layingOf(1, 0.5, 0.25)); len(l.Warnings) != 0 {
		t.Errorf("warns %q, want nothing", l.Warnings)
	}
}

// Shutters within a third of a stop of their marks, whose firings repeat within a
// tenth of a stop. Some on the border between the two series are taken for the other.
func TestGoodShuttersAreLaidAtTheirMarksWithoutBeingTold(t *testing.T) {
	right, firings, whole, shutters := 0, 0, 0, 0
	for k := range 400 {
		rng := rand.New(rand.NewPCG(3, uint64(k)))
		series := shutter.Binary().Marks[2:9]
		if k%4 == 0 {
			series = shutter.Older().Marks[:7]
		}
		offset := 0.1 * rng.NormFloat64()
		var durations []float64
		var truth []string
		for _, m := range series {
			own := min(max(offset+0.1*rng.NormFloat64(), -1.0/3), 1.0/3)
			for range 3 {
				durations = append(durations, m.Nominal*math.Exp2(own+0.03*rng.NormFloat64()))
				truth = append(truth, m.Label)
			}
		}
		at := make([]string, len(truth))
		l := LayNearest(layingOf(durations...))
		for _, r := range l.Runs {
			for _, i := range r.Firings {
				at[i] = r.Mark.Label
			}
		}
		shutters++
		if slices.Equal(at, truth) {
			whole++
		}
		for i := range truth {
			firings++
			if at[i] == truth[i] {
				right++
			}
		}
	}
	t.Logf("%.2f %% of firings at their mark, %.1f %% of shutters wholly", 100*float64(right)/float64(firings), 100*float64(whole)/float64(shutters))
	if float64(right) < 0.97*float64(firings) {
		t.Errorf("%d of %d firings are at their mark, want 97 %%", right, firings)
	}
}

func TestNamedClipsHaveTheSpeedOfTheirName(t *testing.T) {
	quarter, _ := MarkFromName("corvane-105_1-4s.wav")
	two, _ := MarkFromName("corvane-105_2s.wav")
	firings := layingOf(0.5, 0, 0.4, 1.1, 1.1, 2.3, 2.3)
	for i, clip := range []int{0, 0, 0, 1, 1, 2, 2} {
		firings[i].Clip = clip
	}
	l := LayNamed(firings, []shutter.Mark{quarter, {}, two})
	if got := layingText(l); got != "1/4: 0 1 2; 1: 3 4; 2s: 5 6" {
		t.Errorf("laid %q", got)
	}
	for i, assumed := range []bool{false, true, false} {
		if l.Runs[i].Assumed != assumed {
			t.Errorf("run %v is assumed: %v, want %v", l.Runs[i].Mark, l.Runs[i].Assumed, assumed)
		}
	}
	if l := LayNamed(firings, nil); len(l.Runs) == 0 || !l.Runs[0].Assumed {
		t.Errorf("without names firings are laid as %v", l.Runs)
	}
}

func TestAClipNamedWronglyIsDoubtedByItself(t *testing.T) {
	quarter, _ := MarkFromName("a_1-4s.wav")
	half, _ := MarkFromName("a_1-2s.wav")
	odd, _ := MarkFromName("a_1-7s.wav")
	firings := layingOf(0.99, 1, 1, 0.5, 0.5, 0.51)
	for i := range firings {
		firings[i].Clip = i / 3
	}
	l := LayNamed(firings, []shutter.Mark{quarter, half, odd})
	if got := layingText(l); got != "1/2: 3 4 5; -: 0 1 2" {
		t.Errorf("laid %q", got)
	}
	want := "clip 1: the speeds told do not fit what was heard: told 1/4, heard what would be usual for 1x3"
	if len(l.Misfits) != 1 || l.Misfits[0].Why != want {
		t.Errorf("misfits %q, want %q", l.Misfits, want)
	}
	if !slices.Equal(l.Unheard, []shutter.Mark{odd}) || len(l.Warnings) != 1 {
		t.Errorf("unheard %v, warns %q; want 1/7 unheard and said to be of no series", l.Unheard, l.Warnings)
	}
}

func TestClipsNamedOneMarkOffAreWarnedOf(t *testing.T) {
	half, _ := MarkFromName("a_1-2s.wav")
	quarter, _ := MarkFromName("a_1-4s.wav")
	firings := layingOf(0.99, 1, 0.5, 0.5, 0.25, 0.25)
	for i := range firings {
		firings[i].Clip = i / 2
	}
	l := LayNamed(firings, []shutter.Mark{half, quarter, {}})
	if got := layingText(l); got != "1/2: 0 1; 1/4: 2 3; 1/4: 4 5" || len(l.Warnings) != 1 {
		t.Errorf("laid %q, warns %q; want a warning of the two clips named", got, l.Warnings)
	}
}

func TestMarksInNamesFollowTheirCompany(t *testing.T) {
	fast, _ := MarkFromName("a_1-250s.wav")
	slow, _ := MarkFromName("a_1-25s.wav")
	firings := layingOf(0.004, 0.04)
	firings[1].Clip = 1
	if l := LayNamed(firings, []shutter.Mark{fast, slow}); l.Runs[0].Mark.Nominal != 0.004 {
		t.Errorf("1/250 beside 1/25 is %v", l.Runs[0].Mark)
	}
}
