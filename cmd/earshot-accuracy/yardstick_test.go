package main

import (
	"flag"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"earshot/dsp"
	"earshot/dsp/synth"
	"earshot/shutter"
)

var needYardsticks = flag.Bool("need-yardsticks", false, "fail, rather than skip, where aubioonset or mir_eval is missing")

// missingYardstick skips the test that needs a Debian package.
func missingYardstick(t *testing.T, pkg string) {
	t.Helper()
	if *needYardsticks {
		t.Fatalf("install Debian's package %s", pkg)
	}
	t.Skipf("install Debian's package %s to run this", pkg)
}

func TestOnsetsArePairedWhereEachIsTheOthersNearest(t *testing.T) {
	cases := []struct {
		name   string
		onsets []float64
		want   [][2]float64
	}{
		{"two alone are a pair", []float64{1, 3}, [][2]float64{{1, 3}}},
		{"pauses longer than firings part them", []float64{1, 1.5, 3, 3.5}, [][2]float64{{1, 1.5}, {3, 3.5}}},
		{"one between two pairs stays alone", []float64{1, 1.5, 3, 5, 5.25}, [][2]float64{{1, 1.5}, {5, 5.25}}},
		{"of three the closer two are a pair", []float64{1, 1.5, 1.75}, [][2]float64{{1.5, 1.75}}},
		{"equal gaps pair none", []float64{1, 2, 3}, nil},
		{"one alone is none", []float64{1}, nil},
		{"nothing is none", nil, nil},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var got [][2]float64
			for _, f := range pairs(c.onsets, shutter.EdgeStop) {
				if !f.Closed || f.Edge != shutter.EdgeStop {
					t.Errorf("%+v is not closed, or not timed by the edge asked for", f)
				}
				got = append(got, [2]float64{f.Open, f.Close})
			}
			if d := cmp.Diff(c.want, got); d != "" {
				t.Errorf("pairs(%v) (-want +got):\n%s", c.onsets, d)
			}
		})
	}
}

// The blades of fired stop 3 ms after they start to open and 4 ms after they start to
// close.
func TestYardsticksStandByTheirOnsets(t *testing.T) {
	truth := []synth.Firing{fired(1, 1.5), fired(3, 3.5)}
	cases := []struct {
		name   string
		heard  []float64
		right  int     // firings
		timed  int     // firings
		onsets [3]int  // right within 1, 2 and 5 ms
		worst  float64 // error of duration, s
	}{
		{"the true starts", []float64{1, 1.5, 3, 3.5}, 2, 2, [3]int{4, 4, 4}, 0},
		{"all 8 ms late, which is a lag", []float64{1.008, 1.508, 3.008, 3.508}, 2, 2, [3]int{4, 4, 4}, 0},
		{"the true stops, which held against starts would be off by 1 ms", []float64{1.003, 1.504, 3.003, 3.504}, 2, 2, [3]int{4, 4, 4}, 0},
		{"one closing 1.5 ms early", []float64{1, 1.4985, 3, 3.5}, 2, 2, [3]int{3, 4, 4}, 0.0015},
		{"a closing missed", []float64{1, 3, 3.5}, 1, 1, [3]int{3, 3, 3}, 0},
		{"a click after a closing, which takes it from its opening", []float64{1, 1.5, 1.6, 3, 3.5}, 1, 2, [3]int{4, 4, 4}, 0},
		{"nothing", nil, 0, 0, [3]int{}, 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s := yardstickStanding(truth, c.heard)
			if s.firings.right != c.right || len(s.errors) != c.timed || s.closed != 2 {
				t.Errorf("%d firings right, %d of %d timed, want %d and %d of 2", s.firings.right, len(s.errors), s.closed, c.right, c.timed)
			}
			for i, want := range c.onsets {
				if n := s.onsets[i]; n != (count{4, len(c.heard), want}) {
					t.Errorf("onsets within %g ms: %+v, want %d right", 1e3*windows()[i], n, want)
				}
			}
			if worst := sizeOf(s.errors, 1); math.Abs(worst-c.worst) > 1e-9 {
				t.Errorf("the worst error is %.6f ms, want %.6f", 1e3*worst, 1e3*c.worst)
			}
		})
	}
}

// clicks writes a second of clicks, noise dying away over 10 ms, on faint noise.
func clicks(t *testing.T, at ...float64) (path string) {
	t.Helper()
	const rate = 48000
	x := make([]float64, rate)
	state := uint32(1)
	random := func() float64 { // by G. Marsaglia's xorshift
		state ^= state << 13
		state ^= state >> 17
		state ^= state << 5
		return float64(state)/(1<<31) - 1
	}
	for i := range x {
		x[i] = 1e-3 * random()
	}
	for _, s := range at {
		first := int(math.Round(s * rate))
		for i := range rate * 10 / 1000 {
			x[first+i] += 0.5 * math.Exp(-float64(i)/96) * random()
		}
	}
	path = filepath.Join(t.TempDir(), "clicks.wav")
	if err := writeClip(path, synth.Loop(dsp.Format{Rate: rate, Channels: 1}, x, rate)); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestYardsticksHearClicks(t *testing.T) {
	all := []yardstick{{thresholdName, thresholdOnsets}}
	if a, ok := findAubio(); ok {
		all = append(all, yardstick{aubioName, a.onsets})
	} else if *needYardsticks {
		missingYardstick(t, "aubio-tools")
	}
	want := []float64{0.25, 0.5, 0.53, 0.8}
	path := clicks(t, want...)
	for _, y := range all {
		t.Run(y.name, func(t *testing.T) {
			got, err := y.hear(path)
			if err != nil {
				t.Fatal(err)
			}
			if n := countOnsets(want, got, 0.005); n != (count{4, 4, 4}) {
				t.Errorf("heard %v, want each of %v within 5 ms", got, want)
			}
		})
	}
}

func TestAClipThatCannotBeHeardIsAnError(t *testing.T) {
	path := filepath.Join(t.TempDir(), "no.wav")
	if err := os.WriteFile(path, []byte("no sound"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := (yardstick{thresholdName, thresholdOnsets}).hear(path); err == nil {
		t.Error("no error for a file that holds no sound")
	}
	if _, err := (yardstick{thresholdName, thresholdOnsets}).hear(path + "x"); err == nil {
		t.Error("no error for a file that is not there")
	}
}

func TestTheSameClipsAreSetSideBySide(t *testing.T) {
	some, err := choose(conditions(), "one firing")
	if err != nil {
		t.Fatal(err)
	}
	outcomes, err := hearAll(some, 1)
	if err != nil {
		t.Fatal(err)
	}
	if err := compare(outcomes, []yardstick{{thresholdName, thresholdOnsets}}); err != nil {
		t.Fatal(err)
	}
	r := newResults(some, outcomes)
	for _, name := range []string{ownName, thresholdName} {
		if n := r.of(beyond)[0].beside[name].firings.references; n != besideClips {
			t.Errorf("%s heard %d firings, want the %d of the first clips", name, n, besideClips)
		}
	}
	page := r.page(1)
	for _, want := range []string{"aubioonset is not installed", "## Beside other ways", "threshold F1 ±5 ms", "earshot F ±1 ms"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	columns := map[int]bool{}
	for _, line := range strings.Split(page[strings.Index(page, "## Beside"):], "\n") {
		if strings.HasPrefix(line, "|") {
			columns[strings.Count(line, "|")] = true
		}
	}
	if len(columns) != 1 {
		t.Errorf("rows of the tables have %v columns", columns)
	}
}
