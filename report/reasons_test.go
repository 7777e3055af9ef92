package report_test

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"earshot/report"
	"earshot/report/internal/sample"
	"earshot/report/write"
	"earshot/shutter"
	"earshot/shutter/assign"
	"earshot/shutter/judge"
)

// sitting judges firings of so many deviations at each speed, one after another;
// assumed marks are those of a person who told no settings.
func sitting(assumed bool, deviations map[string][]float64) report.Document {
	return report.New(judged(assumed, deviations), report.Facts{Clips: []report.Clip{{File: "a.wav"}}})
}

func judged(assumed bool, deviations map[string][]float64) judge.Check {
	var (
		firings []shutter.Firing
		laying  assign.Laying
		at      float64
	)
	for _, m := range shutter.Binary().Marks {
		run := assign.Run{Mark: m, Assumed: assumed}
		for _, x := range deviations[m.Label] {
			run.Firings = append(run.Firings, len(firings))
			f := sample.Firing(0, at, m.Nominal*math.Exp2(x), m).Firing
			firings, at = append(firings, f), at+20
		}
		if len(run.Firings) > 0 {
			laying.Runs = append(laying.Runs, run)
		}
	}
	return judge.Judge(firings, laying, judge.Standard())
}

func textOf(t *testing.T, d report.Document) string {
	t.Helper()
	var b bytes.Buffer
	if err := write.Text(&b, d); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestWhatHoldsForSeveralSpeedsIsSaidOnce(t *testing.T) {
	cases := []struct {
		name       string
		assumed    bool
		deviations map[string][]float64
		want       []string
	}{
		{"neighbours alike are a range", false,
			map[string][]float64{"1": {.8, .81, .79}, "1/2": {.8, .78, .79}, "1/4": {.82, .81, .8}, "1/8": {.01, 0, .02}},
			[]string{"1 to 1/4 s: 0.8 stop slow (more light), beyond the limit of 1/2 stop"}},
		{"speeds off by different amounts are told apart", false,
			map[string][]float64{"1": {.8, .81, .79}, "1/2": {.6, .61, .6}, "1/4": {.82, .81, .8}, "1/8": {.01, 0, .02}},
			[]string{"1, 1/4 s: 0.8 stop slow (more light), beyond the limit of 1/2 stop", "1/2 s: 0.6 stop slow (more light), beyond the limit of 1/2 stop"}},
		{"a steady lens says how to set a meter", false,
			map[string][]float64{"1": {.4, .41, .41}, "1/2": {.4, .42, .41}, "1/4": {.41, .41, .4}, "1/8": {-.42, -.41, -.4}},
			[]string{"1 to 1/4 s: 0.4 stop slow (more light); set a meter 1/3 stop slower than the mark",
				"1/8 s: 0.4 stop fast (less light); set a meter 1/3 stop faster than the mark"}},
		{"two firings are too few", false,
			map[string][]float64{"1": {.01, .02}, "1/2": {.02, .01}, "1/4": {.01, .01}, "1/8": {.01, 0}},
			[]string{"1 to 1/8 s: on the mark, from too few firings to call it good"}},
		{"firings that differ a little", false,
			map[string][]float64{"1": {-.1, .1, .02}, "1/2": {0, .01, 0}, "1/4": {.01, .01, 0}, "1/8": {.01, 0, 0}},
			[]string{"1 s: on the mark, but its firings differ too much to call it good"}},
		{"assumed marks", true,
			map[string][]float64{"1": {0, .01, 0}, "1/2": {.01, 0, 0}, "1/4": {0, 0, .01}},
			[]string{"not judged at 1 to 1/4 s: its mark is assumed from the times, and a shutter half a stop out would be taken for its neighbour"}},
	}
	for _, c := range cases {
		if d := cmp.Diff(c.want, sitting(c.assumed, c.deviations).Reasons()); d != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, d)
		}
	}
}

func TestAdviceForAssumedSpeedsIsGivenOnce(t *testing.T) {
	got := textOf(t, sitting(true, map[string][]float64{"1": {0, .01, 0}, "1/2": {.01, 0, 0}, "1/4": {0, 0, .01}}))
	for _, once := range []string{"--speeds", "assumed from the times"} {
		if n := strings.Count(got, once); n != 1 {
			t.Errorf("%q is said %d times in\n%s", once, n, got)
		}
	}
}

func TestSteadyIsExplainedWhereItIsGiven(t *testing.T) {
	const means = "steady: it repeats, but is off its mark or near a limit; state the measured speed when it is sold"
	for name, c := range map[string]struct {
		deviations map[string][]float64
		want       int
	}{
		"a steady shutter":                        {map[string][]float64{"1": {.4, .41, .41}, "1/2": {.4, .42, .41}}, 1},
		"a shutter for service with steady speed": {map[string][]float64{"1": {.9, .91, .9}, "1/2": {.4, .42, .41}}, 1},
		"a good shutter":                          {map[string][]float64{"1": {0, 0, .01}, "1/2": {0, 0, .01}}, 0},
	} {
		if got := textOf(t, sitting(false, c.deviations)); strings.Count(got, means) != c.want {
			t.Errorf("%s: want it explained %d times in\n%s", name, c.want, got)
		}
	}
}

func TestATimeUntilAHangEndedIsNoDuration(t *testing.T) {
	got := textOf(t, sitting(false, map[string][]float64{"1": {0, 2.68, .01}}))
	if want := "firing 2 at 20.000 s, at 1 s: stayed open, at least 6.4 s\n"; !strings.Contains(got, want) || strings.Contains(got, "6409 ms") {
		t.Errorf("want %q in\n%s", want, got)
	}
}
