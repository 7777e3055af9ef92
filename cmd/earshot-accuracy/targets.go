package main

import (
	"fmt"
	"math"
)

// target is a figure that a run must reach.
type target struct {
	name  string
	want  string
	check func(r *results) (got string, met bool)
}

// targets are all there are. Times are in s.
func targets() []target {
	atLeast := func(name string, least float64, of func(r *results) float64) target {
		return target{name, fmt.Sprintf("≥ %g", least), func(r *results) (string, bool) {
			got := of(r)
			return fmt.Sprintf("%.4f", got), got >= least
		}}
	}
	atMost := func(name string, most float64, of func(t *tally) float64) target {
		return target{name, fmt.Sprintf("≤ %g ms", 1e3*most), func(r *results) (string, bool) {
			got := of(r.core)
			return fmt.Sprintf("%.4f ms", 1e3*got), math.Abs(got) <= most
		}}
	}
	return []target{
		atLeast("recall, core conditions together", 0.99, func(r *results) float64 { return r.core.last().recall() }),
		atLeast("precision, core conditions together", 0.99, func(r *results) float64 { return r.core.last().precision() }),
		atLeast("recall, all conditions together", 0.99, func(r *results) float64 { return r.whole.last().recall() }),
		atLeast("precision, all conditions together", 0.99, func(r *results) float64 { return r.whole.last().precision() }),
		worstF1(0.97),
		atMost("error of duration, 95th percentile", 0.1e-3, func(t *tally) float64 { return t.off(0.95) }),
		atMost("bias of duration", 0.02e-3, func(t *tally) float64 { return t.bias() }),
		{"firings found where there are none", "0", func(r *results) (string, bool) {
			n := 0
			for _, t := range r.of(quiet) {
				n += t.last().estimates
			}
			return fmt.Sprint(n), n == 0
		}},
	}
}

// worstF1 holds every core condition to an F1, and names the worst.
func worstF1(least float64) target {
	return target{"F1 in the worst core condition", fmt.Sprintf("≥ %g", least), func(r *results) (string, bool) {
		worst, name := math.Inf(1), "none"
		for _, t := range r.of(core) {
			if f := t.last().f1(); f < worst {
				worst, name = f, t.name
			}
		}
		return fmt.Sprintf("%.4f (%s)", worst, name), worst >= least
	}}
}

// met tells whether every target was reached.
func (r *results) met() bool {
	for _, t := range targets() {
		if _, ok := t.check(r); !ok {
			return false
		}
	}
	return true
}
