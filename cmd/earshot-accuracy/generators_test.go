package main

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"earshot/dsp/impact"
	"earshot/dsp/known"
	"earshot/shutter"
)

// at is a true firing that must be heard, whose strokes last 4 ms.
func at(open, close float64) known.Firing {
	return known.Firing{Plain: true, Open: known.Stroke{Start: open, Stop: open + 0.004}, Close: known.Stroke{Start: close, Stop: close + 0.004}, Closes: true}
}

// aside is one that need not be heard.
func aside(f known.Firing) known.Firing {
	f.Plain = false
	return f
}

// hung is one that never closes.
func hung(open float64) known.Firing {
	return known.Firing{Plain: true, Open: known.Stroke{Start: open, Stop: open + 0.004}}
}

// timed is a firing found, with a standard uncertainty of 0.1 ms.
func timed(open, close float64, e shutter.Edge) shutter.Firing {
	return shutter.Firing{Open: open, Close: close, Closed: true, Edge: e, U: 0.1e-3}
}

func TestFiringsOfGeneratorsAreScored(t *testing.T) {
	const start, stop = shutter.EdgeStart, shutter.EdgeStop
	unfit := timed(1, 1.5, start)
	unfit.Unfit = "samples lost inside"
	cases := []struct {
		name   string
		truth  []known.Firing
		found  []shutter.Firing
		want   count
		errors []float64 // ms
		wrong  int
	}{
		{"found to the sample", []known.Firing{at(1, 1.5)}, []shutter.Firing{timed(1, 1.5, start)}, count{1, 1, 1}, []float64{0}, 0},
		{"timed by its stops", []known.Firing{at(1, 1.5)}, []shutter.Firing{timed(1.004, 1.504, stop)}, count{1, 1, 1}, []float64{0}, 0},
		{"opening by its stop, closing by its start: found, and surely wrong", []known.Firing{at(1, 1.5)}, []shutter.Firing{timed(1.004, 1.5, start)}, count{1, 1, 1}, []float64{-4}, 1},
		{"off by more than 3u but less than 1 ms", []known.Firing{at(1, 1.5)}, []shutter.Firing{timed(1, 1.5009, start)}, count{1, 1, 1}, []float64{0.9}, 0},
		{"wrong end: the closing is another sound", []known.Firing{at(1, 1.5)}, []shutter.Firing{timed(1, 1.6, start)}, count{1, 1, 0}, nil, 0},
		{"missed", []known.Firing{at(1, 1.5), at(3, 3.5)}, []shutter.Firing{timed(3, 3.5, start)}, count{2, 1, 1}, []float64{0}, 0},
		{"found twice", []known.Firing{at(1, 1.5)}, []shutter.Firing{timed(1, 1.5, start), timed(1.001, 1.501, start)}, count{1, 2, 1}, []float64{0}, 0},
		{"not plain and found: neither right nor false", []known.Firing{at(1, 1.5), aside(at(3, 3.5))}, []shutter.Firing{timed(1, 1.5, start), timed(3, 3.5, start)}, count{1, 1, 1}, []float64{0}, 0},
		{"not plain and not found", []known.Firing{aside(at(3, 3.5))}, nil, count{}, nil, 0},
		{"not plain and closed at another sound: false", []known.Firing{aside(at(3, 3.5))}, []shutter.Firing{timed(3, 3.7, start)}, count{0, 1, 0}, nil, 0},
		{"hangs and is found so", []known.Firing{hung(1)}, []shutter.Firing{{Open: 1, Edge: start}}, count{1, 1, 1}, nil, 0},
		{"hangs and is given a closing", []known.Firing{hung(1)}, []shutter.Firing{timed(1, 4, start)}, count{1, 1, 0}, nil, 0},
		{"closes and is said to hang", []known.Firing{at(1, 1.5)}, []shutter.Firing{{Open: 1, Edge: start}}, count{1, 1, 0}, nil, 0},
		{"unfit: found, not timed", []known.Firing{at(1, 1.5)}, []shutter.Firing{unfit}, count{1, 1, 1}, nil, 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			a := newAudition("kind", "kind, 0", known.Truth{Firings: c.truth}, c.found, false)
			if got := a.count(); got != c.want {
				t.Errorf("count = %v, want %v", got, c.want)
			}
			wrong := 0
			var errors []float64
			for _, x := range a.timings() {
				errors = append(errors, math.Round(1e6*x.error)/1e3)
				if x.surelyWrong() {
					wrong++
				}
			}
			if !reflect.DeepEqual(errors, c.errors) || wrong != c.wrong {
				t.Errorf("errors %v ms, %d surely wrong, want %v, %d", errors, wrong, c.errors, c.wrong)
			}
			if perfect := c.want.right == c.want.references && c.want.right == c.want.estimates && c.wrong == 0; perfect != (a.explain() == "") {
				t.Errorf("explained as %q", a.explain())
			}
		})
	}
}

func TestACodecsCommonLagIsForgivenToRecordingsOfGenerators(t *testing.T) {
	truth := known.Truth{Firings: []known.Firing{at(1, 1.5), at(3, 3.5), at(5, 5.5)}}
	var late []shutter.Firing
	for _, f := range truth.Firings {
		late = append(late, timed(f.Open.Start-0.008, f.Close.Start-0.008, shutter.EdgeStart))
	}
	if got, want := newAudition("", "", truth, late, true).count(), (count{3, 3, 3}); got != want {
		t.Errorf("after a codec: %v, want %v", got, want)
	}
	if got, want := newAudition("", "", truth, late, false).count(), (count{3, 3, 0}); got != want {
		t.Errorf("without one: %v, want %v", got, want)
	}
	if late[0].Open != truth.Firings[0].Open.Start-0.008 {
		t.Error("the firings given were moved")
	}
}

func TestFalseFiringsWhereNothingIsFiredAreCountedByClip(t *testing.T) {
	m := sumUp("g", []*audition{
		newAudition("pens", "pens, 0", known.Truth{}, []shutter.Firing{timed(1, 2, shutter.EdgeStart), timed(3, 4, shutter.EdgeStart)}, false),
		newAudition("pens", "pens, 1", known.Truth{}, nil, false),
		newAudition("leaf", "leaf, 0", known.Truth{Firings: []known.Firing{at(1, 2)}}, nil, false),
	})
	if m.quiet != 2 || m.alarms != 2 || m.alarmed != 1 {
		t.Errorf("%d false firings in %d of %d clips, want 2 in 1 of 2", m.alarms, m.alarmed, m.quiet)
	}
	if w := m.worst(); len(w) != 2 || w[0].kind != "pens" || w[1].missed != 1 {
		t.Errorf("the worst kinds are %v", w)
	}
}

func TestTwoKindsOfImpactsAreMadeAndHeard(t *testing.T) {
	takes := knownTakes("impact", []string{"leaf", "nothing: still room"}, impact.Make, toMeasure, 1, 1)
	auditions, err := tryOut(takes)
	if err != nil {
		t.Fatal(err)
	}
	m := sumUp("impact", auditions)
	if m.clips != 2 || m.quiet != 1 || m.alarms != 0 || m.counts.references == 0 || m.counts.f1() < 0.9 {
		t.Errorf("measured %+v, want two clips, firings found in the one alone", *m)
	}
	page := generatorsPage([]*measured{m})
	if !strings.Contains(page, "| impact ") {
		t.Errorf("the page has no row:\n%s", page)
	}
}

func TestTheMissingPackageOfARowIsNamed(t *testing.T) {
	if got := packageOf("/usr/share/buckle/wav/11-0.wav"); got != "bucklespring-data" {
		t.Errorf("packageOf = %q", got)
	}
	absent := aboutAbsent(absentGenerators([]generator{{name: "collage", missing: []string{"tuxpaint-data"}}, {name: "impact"}}))
	if !strings.Contains(absent, "the row collage: install tuxpaint-data") || strings.Contains(absent, "impact") {
		t.Errorf("absent: %q", absent)
	}
}
