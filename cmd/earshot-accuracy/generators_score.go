package main

import (
	"fmt"
	"math"
	"strings"

	"earshot/dsp/known"
	"earshot/shutter"
)

// audition is one recording of a generator and what was heard in it.
type audition struct {
	kind, name string
	truth      known.Truth
	found      []shutter.Firing

	of    []int  // the index in found of each true firing; −1: not found
	aside []bool // firings found that are true ones which need not be heard
}

// newAudition pairs what was found with what there was. After a codec the lag that all
// onsets have in common is taken out first, see forgiveLag.
func newAudition(kind, name string, truth known.Truth, found []shutter.Firing, coded bool) *audition {
	t := &audition{kind: kind, name: name, truth: truth, found: found, aside: make([]bool, len(found))}
	if coded {
		t.forgiveLag()
		found = t.found
	}
	t.of = match(len(truth.Firings), len(found), func(i, f int) bool {
		return truth.Firings[i].Plain && isOf(truth.Firings[i], found[f])
	})
	right := make([]bool, len(found))
	for _, f := range t.of {
		if f >= 0 {
			right[f] = true
		}
	}
	rest := match(len(truth.Firings), len(found), func(i, f int) bool {
		return !truth.Firings[i].Plain && !right[f] && isOf(truth.Firings[i], found[f])
	})
	for _, f := range rest {
		if f >= 0 {
			t.aside[f] = true
		}
	}
	return t
}

func (t *audition) forgiveLag() {
	if len(t.found) == 0 {
		return
	}
	var at []float64
	for _, f := range t.truth.Firings {
		at = append(at, edgeOf(f.Open, t.found[0].Edge))
		if f.Closes {
			at = append(at, edgeOf(f.Close, t.found[0].Edge))
		}
	}
	lag := lagBehind(at, heardOnsets(t.found))
	moved := make([]shutter.Firing, len(t.found))
	for i, f := range t.found {
		f.Open -= lag
		if f.Closed {
			f.Close -= lag
		}
		moved[i] = f
	}
	t.found = moved
}

// isOf tells whether a firing found is a true one: both its ends lie within window of
// the strokes of that one's, from their start to their stop, and one that never closes is
// found as such. Which of the two edges was timed is a matter of the duration's error.
func isOf(t known.Firing, f shutter.Firing) bool {
	if !near(f.Open, t.Open) || f.Closed != t.Closes {
		return false
	}
	return !f.Closed || near(f.Close, t.Close)
}

func near(at float64, s known.Stroke) bool {
	return at >= min(s.Start, s.Stop)-window && at <= max(s.Start, s.Stop)+window
}

// edgeOf is the time of the edge of a stroke that a firing was timed by.
func edgeOf(s known.Stroke, e shutter.Edge) float64 {
	if e == shutter.EdgeStop {
		return s.Stop
	}
	return s.Start
}

// count counts the firings that must be heard, those found but for the ones aside, and
// those that are both.
func (t *audition) count() (n count) {
	for i, f := range t.truth.Firings {
		if f.Plain {
			n.references++
		}
		if t.of[i] >= 0 {
			n.right++
		}
	}
	for _, aside := range t.aside {
		if !aside {
			n.estimates++
		}
	}
	return n
}

// timings are those of the firings that were found and are fit to be timed.
func (t *audition) timings() (all []timing) {
	for i, f := range t.of {
		if f < 0 || !t.found[f].Closed || t.found[f].Unfit != "" {
			continue
		}
		x, e := t.truth.Firings[i], t.found[f].Edge
		d := edgeOf(x.Close, e) - edgeOf(x.Open, e)
		all = append(all, timing{i, t.found[f].Duration() - d, t.found[f].U, d})
	}
	return all
}

// A duration is surely wrong where its error is more than sureTimes its stated standard
// uncertainty and more than sureLeast, s.
const (
	sureTimes = 3
	sureLeast = 1e-3
)

func (x timing) surelyWrong() bool {
	return math.Abs(x.error) > sureTimes*x.u && math.Abs(x.error) > sureLeast
}

// explain lists what went wrong, empty where nothing did.
func (t *audition) explain() string {
	var b strings.Builder
	right := map[int]bool{}
	for i, f := range t.of {
		right[f] = true
		if x := t.truth.Firings[i]; f < 0 && x.Plain {
			fmt.Fprintf(&b, "  missed %s (firing %d): %s\n", x.Mark, i, span(x.Open.Start, x.Close.Start))
		}
	}
	for f, x := range t.found {
		if !right[f] && !t.aside[f] {
			fmt.Fprintf(&b, "  false  %s\n", span(x.Open, x.Close))
		}
	}
	for _, x := range t.timings() {
		if x.surelyWrong() {
			f := t.truth.Firings[x.firing]
			fmt.Fprintf(&b, "  wrong  %s (firing %d, %s, by %s): %+.3f ms, stated u %.3f\n",
				f.Mark, x.firing, span(f.Open.Start, f.Close.Start), t.found[t.of[x.firing]].Edge, 1e3*x.error, 1e3*x.u)
		}
	}
	if b.Len() == 0 {
		return ""
	}
	return t.name + "\n" + b.String()
}
