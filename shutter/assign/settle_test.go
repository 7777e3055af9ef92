package assign

import (
	"strings"
	"testing"

	"earshot/shutter"
)

// settledAs reads one mark for each firing, - for none.
func settledAs(t *testing.T, list string) []shutter.Mark {
	t.Helper()
	var marks []shutter.Mark
	for _, word := range strings.Fields(list) {
		var m shutter.Mark
		if word != "-" {
			var err error
			if m, err = shutter.ParseMark(word); err != nil {
				t.Fatal(err)
			}
		}
		marks = append(marks, m)
	}
	return marks
}

func TestASettledMarkIsSure(t *testing.T) {
	firings := layingOf(1, 1, 1, 0.5, 0.5, 0.5)
	for _, c := range []struct {
		name, told, settled, want string
		warnings, unheard         string
	}{
		{"settled as laid, nothing changes", "1x3 1/2x3", "1 1 1 1/2 1/2 1/2", "1: 0 1 2; 1/2: 3 4 5", "", ""},
		{"one settled otherwise goes there", "1x3 1/2x3", "1 1 1/2 1/2 1/2 1/2", "1: 0 1; 1/2: 2 3 4 5", "1: 3 firings told, 2 heard; 1/2: 3 firings told, 4 heard", ""},
		{"those without stay where they are laid", "1x3 1/2x3", "- - 1/2 - - -", "1: 0 1; 1/2: 2 3 4 5", "1: 3 firings told, 2 heard; 1/2: 3 firings told, 4 heard", ""},
		{"a mark that was not told is taken all the same", "1x3 1/2x3", "1 1 1 1/4 1/4 1/4", "1: 0 1 2; 1/4: 3 4 5", "1/2: 3 firings told, none heard", "1/2"},
		{"a mark of no dial is warned of once", "", "1/7 1/7 1 1 1 1", "1/7: 0 1; 1: 2 3 4 5", "1/7: a mark of neither the modern nor the older series, taken as written, 143 ms", ""},
	} {
		laying := LayNearest(firings)
		var told []shutter.Step
		if c.told != "" {
			told = layingSteps(t, c.told)
			laying = Lay(firings, told)
		}
		l := laying.Settle(firings, settledAs(t, c.settled), told)
		if got := layingText(l); got != c.want {
			t.Errorf("%s: laid %q, want %q", c.name, got, c.want)
		}
		if got := strings.Join(l.Warnings, "; "); got != c.warnings {
			t.Errorf("%s: warns %q, want %q", c.name, got, c.warnings)
		}
		if got := labelsOf(l.Unheard); got != c.unheard {
			t.Errorf("%s: unheard %q, want %q", c.name, got, c.unheard)
		}
		for _, r := range l.Runs {
			if r.Assumed {
				t.Errorf("%s: %s is assumed", c.name, r.Mark.Label)
			}
		}
	}
}

func TestASettledMarkEndsTheDoubtOfItsFiringAlone(t *testing.T) {
	firings := layingOf(1, 1, 1, 0.5, 0.5, 0.5)
	wrong := layingSteps(t, "1/4x6")
	laying := Lay(firings, wrong)
	if len(laying.Misfits) == 0 || len(laying.Doubts) != 6 {
		t.Fatalf("1/4 fits firings of 1 and 1/2 s: %+v", laying)
	}
	some := laying.Settle(firings, settledAs(t, "1 1 1 - - -"), wrong)
	if got := layingText(some); got != "1: 0 1 2; -: 3 4 5" || len(some.Misfits) == 0 {
		t.Errorf("laid %q with misfits %v", got, some.Misfits)
	}
	all := laying.Settle(firings, settledAs(t, "1 1 1 1/2 1/2 1/2"), wrong)
	if got := layingText(all); got != "1: 0 1 2; 1/2: 3 4 5" || len(all.Misfits) > 0 {
		t.Errorf("laid %q with misfits %v", got, all.Misfits)
	}
}

func TestSettledMarksAreOfOneSeries(t *testing.T) {
	firings := layingOf(0.2, 0.1, 0.004)
	l := LayNearest(firings).Settle(firings, settledAs(t, "1/5 1/10 1/250"), nil)
	if got := l.Runs[2].Mark.Nominal; got != 0.004 {
		t.Errorf("1/250 beside 1/5 and 1/10 is %g s", got)
	}
}

// labelsOf writes marks as a list.
func labelsOf(marks []shutter.Mark) string {
	var labels []string
	for _, m := range marks {
		labels = append(labels, m.Label)
	}
	return strings.Join(labels, ", ")
}
