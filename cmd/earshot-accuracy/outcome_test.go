package main

import (
	"math"
	"strings"
	"testing"

	"earshot/dsp/synth"
	"earshot/shutter"
)

// fired is a true firing whose stops follow its starts by 3 and 4 ms.
func fired(open, close float64) synth.Firing {
	return synth.Firing{Label: "1/2", Nominal: 0.5, Open: synth.Stroke{Start: open, Stop: open + 0.003}, Close: synth.Stroke{Start: close, Stop: close + 0.004}, Closes: true}
}

func heardAt(open, close float64, e shutter.Edge) shutter.Firing {
	return shutter.Firing{Open: open, Close: close, Closed: true, Edge: e, U: 1e-5}
}

func TestFiringsAreScoredByBothOnsetsOfTheirEdge(t *testing.T) {
	one := []synth.Firing{fired(1, 1.5)}
	open := fired(1, 0)
	open.Close, open.Closes = synth.Stroke{}, false
	cases := []struct {
		name  string
		truth []synth.Firing
		found []shutter.Firing
		right int
	}{
		{"both starts within the window", one, []shutter.Firing{heardAt(1.004, 1.496, shutter.EdgeStart)}, 1},
		{"a closing 6 ms late", one, []shutter.Firing{heardAt(1, 1.506, shutter.EdgeStart)}, 0},
		{"an opening 6 ms early", one, []shutter.Firing{heardAt(0.994, 1.5, shutter.EdgeStart)}, 0},
		{"both stops, timed by the stop", one, []shutter.Firing{heardAt(1.0075, 1.5085, shutter.EdgeStop)}, 1},
		{"the same times, said to be starts", one, []shutter.Firing{heardAt(1.0075, 1.5085, shutter.EdgeStart)}, 0},
		{"one firing found twice", one, []shutter.Firing{heardAt(1, 1.5, shutter.EdgeStart), heardAt(1.001, 1.5, shutter.EdgeStart)}, 1},
		{"the closing of one with the opening of the next", []synth.Firing{fired(1, 1.5), fired(3, 3.5)}, []shutter.Firing{heardAt(1.5, 3, shutter.EdgeStart)}, 0},
		{"a firing that never closed, heard so", []synth.Firing{open}, []shutter.Firing{{Open: 1, Edge: shutter.EdgeStart}}, 1},
		{"a firing that never closed, given a closing", []synth.Firing{open}, []shutter.Firing{heardAt(1, 1.5, shutter.EdgeStart)}, 0},
		{"a closing not heard", one, []shutter.Firing{{Open: 1, Edge: shutter.EdgeStart}}, 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, n := score(c.truth, c.found, window)
			if n != (count{len(c.truth), len(c.found), c.right}) {
				t.Errorf("score = %+v, want %d right", n, c.right)
			}
		})
	}
}

func TestErrorsOfDurationAreByTheEdgeTimed(t *testing.T) {
	lost := fired(5, 5.5)
	lost.Lost = 0.02
	o := &outcome{
		truth: synth.Truth{Firings: []synth.Firing{fired(1, 1.5), fired(3, 3.5), lost, fired(7, 7.5)}},
		found: []shutter.Firing{
			heardAt(1.0001, 1.5003, shutter.EdgeStart), // 0.2 ms long
			heardAt(3.003, 3.5038, shutter.EdgeStop),   // 501 ms are true, 500.8 found
			heardAt(5, 5.5, shutter.EdgeStart),         // 20 ms of it never reached the file
			{Open: 7, Close: 7.5, Closed: true, Unfit: "samples lost inside", Edge: shutter.EdgeStart},
		},
	}
	o.of, _ = score(o.truth.Firings, o.found, window)
	want := []float64{0.2e-3, -0.2e-3, -20e-3}
	got := o.timings()
	if len(got) != len(want) {
		t.Fatalf("%d timings, want %d, without the one that is not fit", len(got), len(want))
	}
	for i, x := range got {
		if math.Abs(x.error-want[i]) > 1e-9 {
			t.Errorf("error of firing %d = %.6f ms, want %.6f", i, 1e3*x.error, 1e3*want[i])
		}
	}
}

func TestWhatWentWrongIsNamed(t *testing.T) {
	o := &outcome{
		condition: condition{name: "a condition"},
		truth: synth.Truth{
			Firings: []synth.Firing{fired(1, 1.5), fired(4, 4.5)},
			Sounds:  []synth.Sound{{Kind: "winding", Start: 2, End: 2.4}},
		},
		found: []shutter.Firing{heardAt(1, 1.5002, shutter.EdgeStart), heardAt(2.1, 4.001, shutter.EdgeStart)},
	}
	o.of, _ = score(o.truth.Firings, o.found, window)
	got := o.explain()
	for _, want := range []string{
		"missed 1/2 (firing 1): 4.0000 to 4.5000 s",
		"from winding (100 ms into 400) to the opening of firing 1 +1.00 ms",
		"off    1/2 (firing 0, 1.0000 to 1.5000 s (500.0 ms), by start): +0.200 ms",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("explain() lacks %q:\n%s", want, got)
		}
	}
	o.found = []shutter.Firing{heardAt(1, 1.5, shutter.EdgeStart), heardAt(4, 4.5, shutter.EdgeStart)}
	o.of, _ = score(o.truth.Firings, o.found, window)
	if got := o.explain(); got != "" {
		t.Errorf("explain() = %q where nothing went wrong", got)
	}
}
