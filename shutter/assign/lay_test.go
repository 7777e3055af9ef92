package assign

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"earshot/shutter"
)

// layingOf gives firings of the durations in s, one every 4 s, in one clip; one of
// 0 never closed.
func layingOf(durations ...float64) []shutter.Firing {
	firings := make([]shutter.Firing, len(durations))
	at := 2.0
	for i, d := range durations {
		firings[i] = shutter.Firing{Open: at, Close: at + d, Closed: d > 0, U: 2e-5}
		if d == 0 {
			firings[i].Close = 0
		}
		at += 4 + d
	}
	return firings
}

func layingSteps(t testing.TB, list string) []shutter.Step {
	steps, err := shutter.ParseSteps(list)
	if err != nil {
		t.Fatal(err)
	}
	return steps
}

// layingText writes a laying as "1: 0 1; 1/2: 2?", doubtful firings with a
// question mark, those without a place behind "-".
func layingText(l Laying) string {
	doubt := map[int]bool{}
	for _, d := range l.Doubts {
		doubt[d.Firing] = true
	}
	var parts []string
	list := func(name string, firings []int) {
		p := name + ":"
		for _, i := range firings {
			p += fmt.Sprintf(" %d", i)
			if doubt[i] {
				p += "?"
			}
			delete(doubt, i)
		}
		parts = append(parts, p)
	}
	for _, r := range l.Runs {
		list(r.Mark.Label, r.Firings)
	}
	if len(doubt) > 0 {
		var left []int
		for i := range doubt {
			left = append(left, i)
		}
		slices.Sort(left)
		p := "-:"
		for _, i := range left {
			p += fmt.Sprintf(" %d", i)
		}
		parts = append(parts, p)
	}
	return strings.Join(parts, "; ")
}

func TestFiringsAreLaidAgainstTheSettingsTold(t *testing.T) {
	oneMarkOff := []string{"all that was heard is 1.0 stop slow (more light): see that the speeds told are those on the dial, since one mark off sounds the same"}
	for _, c := range []struct {
		name, told string
		durations  []float64
		want       string
		warnings   []string
	}{
		{"what was told is what was fired", "1x2 1/2x2", []float64{1.1, 1.1, 0.55, 0.55}, "1: 0 1; 1/2: 2 3", nil},
		{"a whole stop slow throughout is still told from its neighbour", "1x3 1/2x3 1/4x3", []float64{2, 2, 2, 1, 1, 1, 0.5, 0.5, 0.5}, "1: 0 1 2; 1/2: 3 4 5; 1/4: 6 7 8", oneMarkOff},
		{"without counts too", "1 1/2 1/4", []float64{2, 2, 2, 1, 1, 1, 0.5, 0.5, 0.5}, "1: 0 1 2; 1/2: 3 4 5; 1/4: 6 7 8", oneMarkOff},
		{"one setting on its mark tells that the others are", "1x2 1/2x2 1/4x2", []float64{1.8, 1.8, 0.9, 0.9, 0.26, 0.26}, "1: 0 1; 1/2: 2 3; 1/4: 4 5", nil},
		{"a missed firing is reported", "1x3 1/2x3 1/4x3", []float64{1.1, 1.1, 1.1, 0.54, 0.54, 0.27, 0.27, 0.27}, "1: 0 1 2; 1/2: 3 4; 1/4: 5 6 7", []string{"1/2: 3 firings told, 2 heard"}},
		{"one fired again is reported", "1x2 1/2x2", []float64{1.1, 1.1, 1.1, 0.54, 0.54}, "1: 0 1 2; 1/2: 3 4", []string{"1: 2 firings told, 3 heard"}},
		{"a setting passed over is reported", "1x3 1/2x3 1/4x3", []float64{1.1, 1.1, 1.1, 0.27, 0.27, 0.27}, "1: 0 1 2; 1/4: 3 4 5", []string{"1/2: 3 firings told, none heard"}},
		{"and so it is without counts", "1 1/2 1/4 1/8", []float64{1.1, 1.1, 1.1, 0.54, 0.54, 0.54, 0.13, 0.13, 0.13}, "1: 0 1 2; 1/2: 3 4 5; 1/8: 6 7 8", []string{"1/4: told, but no firing heard at it"}},
		{"a firing that closes early keeps its place", "1x3 1/2x3", []float64{1.1, 0.5, 1.1, 0.54, 0.54, 0.54}, "1: 0 1 2; 1/2: 3 4 5", nil},
		{"one that never closes keeps its place by the counts", "1x3 1/2x3", []float64{1.1, 1.1, 0, 0.54, 0.54, 0.54}, "1: 0 1 2; 1/2: 3 4 5", nil},
		{"a sound much longer than any setting has no place", "1x3 1/2x3", []float64{1.1, 1.1, 1.1, 7, 0.54, 0.54, 0.54}, "1: 0 1 2; 1/2: 4 5 6; -: 3", nil},
		{"a mark told twice has two runs", "1x3 1/2x3 1x3", []float64{1.1, 1.1, 1.1, 0.54, 0.54, 0.54, 1.1, 1.1, 1.1}, "1: 0 1 2; 1/2: 3 4 5; 1: 6 7 8", nil},
		{"a recording that stops early holds the first settings", "1 1/2 1/4 1/8", []float64{1.1, 0.53}, "1: 0; 1/2: 1", []string{"1/4: told, but no firing heard at it", "1/8: told, but no firing heard at it"}},
		{"a recording that stops in the middle of a setting holds those before", "1x3 1/2x3 1/4x3 1/8x3 1/15x3 1/30x5", []float64{1.1, 1.1, 1.1, 0.54, 0.54, 0.54, 0.27, 0.27, 0.27, 0.13, 0.13}, "1: 0 1 2; 1/2: 3 4 5; 1/4: 6 7 8; 1/8: 9 10", []string{"1/8: 3 firings told, 2 heard", "1/15: 3 firings told, none heard", "1/30: 5 firings told, none heard"}},
		{"firings behind the last setting told have no place", "1x3 1/2x3 1/4x3", []float64{1.1, 1.1, 1.1, 0.54, 0.54, 0.54, 0.27, 0.27, 0.27, 0.13, 0.13, 0.13}, "1: 0 1 2; 1/2: 3 4 5; 1/4: 6 7 8; -: 9 10 11", []string{"the last 3 firings fit none of the settings told: tell every setting that was fired"}},
		{"a mark of no series is taken as written and said", "1/4x3 1/7x3 1/15x3", []float64{0.26, 0.26, 0.26, 0.15, 0.15, 0.15, 0.065, 0.065, 0.065}, "1/4: 0 1 2; 1/7: 3 4 5; 1/15: 6 7 8", []string{"1/7: a mark of neither the modern nor the older series, taken as written, 143 ms"}},
		{"one setting told has all firings", "1/8x3", []float64{1.1, 0, 0.1, 0.1}, "1/8: 0 1 2 3", []string{"1/8: 3 firings told, 4 heard"}},
		{"no firing heard", "1x1 1/2", nil, "", []string{"1: 1 firing told, none heard", "1/2: told, but no firing heard at it"}},
		{"no speed told", "", []float64{1, 2}, "-: 0 1", nil},
		{"from the fast end", "1/4x2 1/2x2 1x2", []float64{0.3, 0.3, 0.6, 0.6, 1.2, 1.2}, "1/4: 0 1; 1/2: 2 3; 1: 4 5", nil},
		{"the older series", "1/10x3 1/25x3 1/50x3 1/100x3", []float64{0.12, 0.12, 0.12, 0.05, 0.05, 0.05, 0.024, 0.024, 0.024, 0.013, 0.013, 0.013}, "1/10: 0 1 2; 1/25: 3 4 5; 1/50: 6 7 8; 1/100: 9 10 11", nil},
		{"the same setting told twice running is never in doubt", "1/4x2 1/4x2", []float64{0.3, 0.3, 0.3, 0.3}, "1/4: 0 1; 1/4: 2 3", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			var steps []shutter.Step
			if c.told != "" {
				steps = layingSteps(t, c.told)
			}
			l := Lay(layingOf(c.durations...), steps)
			if got := layingText(l); got != c.want {
				t.Errorf("laid %q, want %q", got, c.want)
			}
			if !slices.Equal(l.Warnings, c.warnings) {
				t.Errorf("warns %q, want %q", l.Warnings, c.warnings)
			}
			for _, s := range steps {
				ran := slices.ContainsFunc(l.Runs, func(r Run) bool { return r.Mark == s.Mark })
				if slices.Contains(l.Unheard, s.Mark) == ran {
					t.Errorf("%s has a run: %v, and is unheard: %v", s.Mark.Label, ran, !ran)
				}
			}
		})
	}
}

func TestWhereTwoLayingsAreAboutAsGoodTheFiringsSaySo(t *testing.T) {
	// The middle firing never closed: it may be the last at 1 or the first at 1/2.
	l := Lay(layingOf(1.1, 1.1, 0, 0.54, 0.54), layingSteps(t, "1 1/2"))
	if got := layingText(l); got != "1: 0 1; 1/2: 2? 3 4" && got != "1: 0 1 2?; 1/2: 3 4" {
		t.Errorf("laid %q, want firing 2 in doubt", got)
	}
	if len(l.Doubts) == 1 && l.Doubts[0].Reason != "could be 1/2 or 1: both fit about as well" && l.Doubts[0].Reason != "could be 1 or 1/2: both fit about as well" {
		t.Errorf("says %q", l.Doubts[0].Reason)
	}
	// A single run may be at either of two settings; which, nothing tells.
	l = Lay(layingOf(0.7, 0.7, 0.7), layingSteps(t, "1x3 1/2x3"))
	if len(l.Doubts) != 3 {
		t.Errorf("laid %q, want all in doubt", layingText(l))
	}
}

func TestAPauseTellsWhereTheDialWasTurned(t *testing.T) {
	steps := layingSteps(t, "1x3 1/2x3 1/4x3")
	firings := layingOf(1.1, 1.1, 1.1, 0, 0.54, 0.54, 0.27, 0.27, 0.27)
	for i := range firings { // turning takes 12 s
		turns := float64(i / 3)
		firings[i].Open += 12 * turns
		if firings[i].Closed {
			firings[i].Close += 12 * turns
		}
	}
	if got := layingText(Lay(firings, steps[:])); got != "1: 0 1 2; 1/2: 3 4 5; 1/4: 6 7 8" {
		t.Errorf("laid %q", got)
	}
}

func TestAnUnfitFiringTakesItsPlaceWhateverItsDuration(t *testing.T) {
	firings := layingOf(1.1, 0.4, 1.1, 0.54, 0.54, 0.54)
	firings[1].Unfit = "samples lost inside"
	if got := layingText(Lay(firings, layingSteps(t, "1x3 1/2x3"))); got != "1: 0 1 2; 1/2: 3 4 5" {
		t.Errorf("laid %q", got)
	}
}

func TestClipsFollowEachOtherWithoutAPause(t *testing.T) {
	first, second := layingOf(1.1, 1.1, 1.1), layingOf(0.54, 0.54, 0.54)
	for i := range second {
		second[i].Clip = 1
	}
	if got := layingText(Lay(append(first, second...), layingSteps(t, "1 1/2"))); got != "1: 0 1 2; 1/2: 3 4 5" {
		t.Errorf("laid %q", got)
	}
}

func TestEveryFiringHasOnePlaceInOrderOrADoubt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		value := rapid.OneOf(rapid.Float64Range(-1, 10), rapid.SampledFrom([]float64{0, 1e-9, 1e12, math.Inf(1), math.Inf(-1), math.NaN()}))
		firings := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) shutter.Firing {
			open := value.Draw(t, "open")
			return shutter.Firing{Clip: rapid.IntRange(0, 2).Draw(t, "clip"), Open: open, Close: open + value.Draw(t, "duration"), Closed: rapid.Bool().Draw(t, "closed"), U: value.Draw(t, "u")}
		}), 0, 12).Draw(t, "firings")
		marks := append(shutter.Binary().Marks, shutter.Older().Marks...)
		steps := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) shutter.Step {
			return shutter.Step{Mark: rapid.SampledFrom(marks).Draw(t, "mark"), Count: rapid.IntRange(0, 5).Draw(t, "count")}
		}), 1, 8).Draw(t, "steps")
		for _, l := range []Laying{Lay(firings, steps), LayNearest(firings), LayNamed(firings, []shutter.Mark{{}, steps[0].Mark})} {
			layingIsWhole(t, l, len(firings))
		}
	})
}

func layingIsWhole(t *rapid.T, l Laying, firings int) {
	times := make([]int, firings)
	for _, run := range l.Runs {
		if len(run.Firings) == 0 || !slices.IsSorted(run.Firings) {
			t.Fatalf("run %v is empty or not in time order", run)
		}
		for _, i := range run.Firings {
			times[i]++
		}
	}
	for _, d := range l.Doubts {
		if d.Reason == "" {
			t.Fatalf("firing %d is in doubt without a reason", d.Firing)
		}
		times[d.Firing] = max(times[d.Firing], 1)
	}
	if i := slices.IndexFunc(times, func(n int) bool { return n != 1 }); i >= 0 {
		t.Fatalf("firing %d is in %d runs and not in doubt: %+v", i, times[i], l)
	}
}

// A shutter a third of a stop slow, wound in between; one firing at 1/2 was not heard.
func ExampleLay() {
	firings := []shutter.Firing{
		{Open: 2.00, Close: 3.26, Closed: true},
		{Open: 6.10, Close: 7.35, Closed: true},
		{Open: 10.40, Close: 11.67, Closed: true},
		{Open: 16.00, Close: 16.63, Closed: true},
		{Open: 19.90, Close: 20.52, Closed: true},
	}
	steps, err := shutter.ParseSteps("1x3 1/2x3")
	if err != nil {
		fmt.Println(err)
		return
	}
	laying := Lay(firings, steps)
	for _, run := range laying.Runs {
		fmt.Println(run.Mark.Label, run.Firings)
	}
	fmt.Println(laying.Warnings)
	// Output:
	// 1 [0 1 2]
	// 1/2 [3 4]
	// [1/2: 3 firings told, 2 heard]
}

func ExampleParseSteps() {
	steps, _ := shutter.ParseSteps("1x3, 1/15x3 30x3")
	for _, s := range steps {
		fmt.Printf("%s is %g ms, fired %d times\n", s.Mark.Label, 1000*s.Mark.Nominal, s.Count)
	}
	_, err := shutter.ParseSteps("1x3 1/15x")
	fmt.Println(err)
	// Output:
	// 1 is 1000 ms, fired 3 times
	// 1/15 is 62.5 ms, fired 3 times
	// 1/30 is 31.25 ms, fired 3 times
	// speed 2, "1/15x": the count behind the x must be a whole number from 1 to 99, as in 1/4x3
}

// BenchmarkLay lays many firings against many settings without counts, which takes longest.
func BenchmarkLay(b *testing.B) {
	for _, size := range []struct{ settings, each int }{{6, 3}, {10, 5}, {30, 10}} {
		b.Run(fmt.Sprintf("%d_settings_of_%d", size.settings, size.each), func(b *testing.B) {
			rng := rand.New(rand.NewPCG(1, 1))
			var durations []float64
			var steps []shutter.Step
			for s := range size.settings {
				mark := shutter.Binary().Marks[2+s%8]
				steps = append(steps, shutter.Step{Mark: mark})
				for range size.each {
					durations = append(durations, mark.Nominal*math.Exp2(0.3+0.1*rng.NormFloat64()))
				}
			}
			firings := layingOf(durations...)
			b.ReportAllocs()
			for b.Loop() {
				Lay(firings, steps)
			}
		})
	}
}

// Where as many firings were heard at each setting as were told, what is odd about one
// is a fault; where one more was, it may be that one.
func TestCountsThatTallyLeaveNoFiringInDoubt(t *testing.T) {
	for _, c := range []struct {
		name, told string
		durations  []float64
		want       string
	}{
		{"two close early, one after the other", "1x3 1/2x3 1/4x3", []float64{0.92, 0.92, 0.352, 0.187, 0.485, 0.485, 0.223, 0.222, 0.222}, "1: 0 1 2; 1/2: 3 4 5; 1/4: 6 7 8"},
		{"no two alike at one of the settings", "1/2x5 1/4x5", []float64{0.5, 0.5, 0.5, 0.5, 0.5, 0.36, 0.41, 0.417, 0.203, 0.167}, "1/2: 0 1 2 3 4; 1/4: 5 6 7 8 9"},
		{"and one more than told", "1x3 1/2x3 1/4x3", []float64{0.92, 0.92, 0.352, 0.187, 0.485, 0.485, 0.485, 0.223, 0.222, 0.222}, "1: 0 1 2?; 1/2: 4 5 6; 1/4: 7 8 9; -: 3"},
	} {
		if got := layingText(Lay(layingOf(c.durations...), layingSteps(t, c.told))); got != c.want {
			t.Errorf("%s: laid %q, want %q", c.name, got, c.want)
		}
	}
}
