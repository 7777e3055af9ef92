package main

import (
	"fmt"
	"strings"
)

// none stands where there is nothing to count.
const none = "–"

func percent(part, whole int) string {
	if whole == 0 {
		return none
	}
	return fmt.Sprintf("%.1f", 100*share(part, whole))
}

func (t *tally) ms(s float64) string {
	if len(t.errors) == 0 {
		return none
	}
	return fmt.Sprintf("%.3f", 1e3*s)
}

// tables is every table that has something in it.
func (r *results) tables() string {
	var parts []string
	for _, g := range []group{core, beyond} {
		if some := r.of(g); len(some) > 0 {
			parts = append(parts, found(some).String(), judged(some).String(),
				besideFirings(some).String(), besideOnsets(some).String())
		}
	}
	if g := fine(r.of(core)); g != "" {
		parts = append(parts, g)
	}
	if some := r.of(quiet); len(some) > 0 {
		parts = append(parts, alarmed(some).String())
	}
	return strings.Join(parts, "\n")
}

// found is the table of how well firings are found and timed.
func found(some []*tally) grid {
	g := grid{{"condition", "firings", "recall", "precision", "F1 ±1 ms", "F1 ±2 ms", "F1 ±5 ms", "bias ms", "median ms", "95th ms", "within 1.96·U %"}}
	for _, t := range some {
		n := t.last()
		g = append(g, []string{
			t.name, fmt.Sprint(n.references), fmt.Sprintf("%.4f", n.recall()), fmt.Sprintf("%.4f", n.precision()),
			fmt.Sprintf("%.3f", t.counts[0].f1()), fmt.Sprintf("%.3f", t.counts[1].f1()), fmt.Sprintf("%.3f", n.f1()),
			t.ms(t.bias()), t.ms(t.off(0.5)), t.ms(t.off(0.95)), percent(t.covered, len(t.errors)),
		})
	}
	return g
}

// judged is the table of what becomes of the firings found.
func judged(some []*tally) grid {
	g := grid{{"condition", "not fit", "told speeds: astray %", "in doubt %", "and counts: astray %", "in doubt %", "means", "within U95 %", "within onset term %"}}
	for _, t := range some {
		g = append(g, []string{
			t.name, fmt.Sprint(t.unfit),
			percent(t.told.astray, t.told.firings), percent(t.told.doubtful, t.told.firings),
			percent(t.counted.astray, t.counted.firings), percent(t.counted.doubtful, t.counted.firings),
			fmt.Sprint(t.means), percent(t.drawn, t.means), percent(t.fired, t.means),
		})
	}
	return g
}

// bySpeed is the table of the core conditions by marked speed.
func (r *results) bySpeed() grid {
	g := grid{{"speed", "firings", "recall", "bias ms", "median ms", "95th ms", "95th stops", "within 1.96·U %", "means", "within U95 %", "within onset term %"}}
	for _, t := range r.speeds {
		stops := none
		if n := len(t.errors); n > 0 {
			stops = fmt.Sprintf("%.4f", t.off(0.95)/(t.duration/float64(n))*stopsPerPart)
		}
		n := t.last()
		g = append(g, []string{
			t.name, fmt.Sprint(n.references), fmt.Sprintf("%.4f", n.recall()),
			t.ms(t.bias()), t.ms(t.off(0.5)), t.ms(t.off(0.95)), stops, percent(t.covered, len(t.errors)),
			fmt.Sprint(t.means), percent(t.drawn, t.means), percent(t.fired, t.means),
		})
	}
	return g
}

// stopsPerPart turns a small relative error into stops: 1/ln 2.
const stopsPerPart = 1.4427

// alarmed is the table of what was found where nothing was fired.
func alarmed(some []*tally) grid {
	g := grid{{"condition", "minutes", "firings found"}}
	for _, t := range some {
		g = append(g, []string{t.name, fmt.Sprintf("%g", float64(t.clips)*stillLength/60), fmt.Sprint(t.last().estimates)})
	}
	return g
}

// reached is the table of the targets.
func (r *results) reached() grid {
	g := grid{{"target", "wanted", "measured", "met"}}
	for _, t := range targets() {
		got, ok := t.check(r)
		met := "yes"
		if !ok {
			met = "**no**"
		}
		g = append(g, []string{t.name, t.want, got, met})
	}
	return g
}
