package main

import (
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"sort"
	"strings"

	"earshot/shutter/judge"
)

// Targets of naming symptoms, shares of shutters.
const (
	leastNamed  = 0.95 // of those that have it, given its name
	mostHealthy = 0.02 // of the healthy, given any one name
)

// diagnoses are those of every ailment.
type diagnoses []diagnosis

// met tells whether every target was met.
func (all diagnoses) met() bool {
	return !slices.ContainsFunc(all, func(d diagnosis) bool { return d.held && !d.reached() })
}

// reached tells whether an ailment's target was.
func (d diagnosis) reached() bool {
	if d.checked == 0 {
		return false
	}
	if d.symptom != "" {
		return share(d.named[d.symptom], d.checked) >= leastNamed
	}
	for _, n := range d.named {
		if share(n, d.checked) > mostHealthy {
			return false
		}
	}
	return true
}

// writeSymptoms hears and simulates faulty shutters and writes the page. If a condition was asked
// for, it only prints the results of those whose name contains it.
func writeSymptoms(o options, stdout io.Writer) (met bool, err error) {
	var heard, simulated diagnoses
	for i, a := range ailments() {
		if !strings.Contains(a.name()+", "+a.grade, o.condition) {
			continue
		}
		seed := o.seed*100 + uint64(i)
		d, err := a.diagnose(seed)
		if err != nil {
			return false, fmt.Errorf("%s: %w", a.name(), err)
		}
		heard = append(heard, d)
		if a.held {
			simulated = append(simulated, a.simulate(seed, simulatedShutters))
		}
	}
	page := symptomsPage(o.seed, heard, simulated)
	if o.condition != "" {
		_, err := fmt.Fprintf(stdout, "%s\n%s\n%s\n%s", heard.table(), heard.misses(), simulated.table(), heard.beatTable())
		return true, err
	}
	if err := os.WriteFile(filepath.Clean(o.symptoms), []byte(page), 0o644); err != nil {
		return false, fmt.Errorf("%w: run it from the top of the project, or name another file", err)
	}
	return heard.met() && simulated.met(), nil
}

func symptomsPage(seed uint64, heard, simulated diagnoses) string {
	var b strings.Builder
	fmt.Fprintf(&b, "# How well symptoms are found\n\nWritten by `go run ./cmd/earshot-accuracy -seed %d -symptoms docs/symptoms.md`; the same seed gives the same page.\n\n", seed)
	b.WriteString(aboutSymptoms + "\n## By sound\n\n" + heard.table().String())
	b.WriteString("\n" + heard.misses())
	fmt.Fprintf(&b, "\n## By statistics alone\n\n%s\n%s", aboutSimulated, simulated.table())
	b.WriteString("\n## Beats\n\n" + aboutBeats + "\n" + heard.beatTable().String())
	b.WriteString("\n## What is not found\n\n" + aboutUnfound)
	return b.String()
}

// name is what an ailment is called on the page.
func (a ailment) name() string {
	if a.symptom == "" {
		return "healthy"
	}
	return string(a.symptom)
}

// table says what share of shutters was given which names.
func (all diagnoses) table() grid {
	g := grid{{"shutters with", "grade", "firings a speed", "shutters", "named so %", "target", "named otherwise too"}}
	for _, d := range all {
		named, target := percent(d.named[d.symptom], d.checked), "≥ 95"
		if d.symptom == "" {
			named, target = percent(d.checked-d.clear, d.checked)+" any", "≤ 2 each"
		}
		switch {
		case !d.held:
			target = none
		case !d.reached():
			target += ", missed"
		}
		g = append(g, []string{d.name(), d.grade, fmt.Sprint(d.firings), fmt.Sprint(d.checked), named, target, d.others()})
	}
	return g
}

// others lists the other names given, and to what share.
func (d diagnosis) others() string {
	var parts []string
	for _, n := range symptomNames() {
		if c := d.named[n]; c > 0 && n != d.symptom {
			parts = append(parts, fmt.Sprintf("%s %s %%", n, percent(c, d.checked)))
		}
	}
	if len(parts) == 0 {
		return none
	}
	return strings.Join(parts, ", ")
}

// misses names the shutters whose fault was not found, so that they can be looked at.
func (all diagnoses) misses() string {
	var lines []string
	for _, d := range all {
		if len(d.missed) > 0 {
			lines = append(lines, fmt.Sprintf("- %s, %s: shutters %s", d.name(), d.grade, strings.Trim(fmt.Sprint(d.missed), "[]")))
		}
	}
	if len(lines) == 0 {
		return "None was missed.\n"
	}
	return "Missed, by their number from 0:\n\n" + strings.Join(lines, "\n") + "\n"
}

// beatTable says how well beats were counted in the shutters without a fault, and how many stalls
// were found.
func (all diagnoses) beatTable() grid {
	g := grid{{"shutters with", "firings with a buzz", "beats counted %", "rate: median error %", "90th percentile %", "off by more than 10 %", "firings that stall", "falter found %"}}
	for _, d := range all {
		if d.symptom != "" && d.symptom != judge.Hesitates {
			continue
		}
		b := d.beats
		off := make([]float64, len(b.rates))
		for i, e := range b.rates {
			off[i] = 100 * math.Abs(e)
		}
		slices.Sort(off)
		at := func(p float64) string {
			if len(off) == 0 {
				return none
			}
			return fmt.Sprintf("%.1f", off[int(p*float64(len(off)-1))])
		}
		g = append(g, []string{d.name() + ", " + d.grade, fmt.Sprint(b.buzzing), percent(b.counted, b.buzzing), at(0.5), at(0.9), percent(len(off)-sort.SearchFloat64s(off, 10), len(off)), fmt.Sprint(b.stalls), percent(b.found, b.stalls)})
	}
	return g
}
