package main

import (
	_ "embed"
	"fmt"
	"strings"
)

//go:embed constants.txt
var constantSources string

// source is where a constant comes from, and its unit.
type source struct{ unit, from string }

// formula tells whether the number belongs to a formula and can't be chosen.
func (s source) formula() bool { return strings.HasPrefix(s.from, "formula") }

// unsourced is what is said of a constant that the list of sources does not name.
const unsourced = "chosen on synthetic recordings"

// readSources reads the list of sources: a line for each constant, its key, unit and
// source, separated by " | ".
func readSources() map[string]source {
	all := map[string]source{}
	for line := range strings.Lines(constantSources) {
		if part := strings.Split(strings.TrimSpace(line), " | "); len(part) == 3 {
			all[part[0]] = source{part[1], part[2]}
		}
	}
	return all
}

// constantsPage is the page of all constants, as far as they were run.
type constantsPage struct {
	seed    uint64
	sources map[string]source
	asIs    figures
	all     []constant
	changed []changed
}

func (p *constantsPage) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "# Every constant of hearing, halved and doubled\n\n")
	fmt.Fprintf(&b, "Written by `go run ./cmd/earshot-accuracy -constants docs/constants.md -seed %d` (`make constants`).\n\n", p.seed)
	fmt.Fprintf(&b, aboutConstants, namesOf(few()), p.asIs.F1, 1e3*p.asIs.P95, p.asIs.False, p.asIs.Misses, p.asIs.Worst)
	ran := map[constant]bool{}
	g := grid{{"constant", "value", "unit", "what the code says of it", "source", "halved: F1", "95th ms", "false", "doubled: F1", "95th ms", "false"}}
	mattering := 0
	for _, c := range p.changed {
		ran[c.constant] = true
		if p.matters(c.half) || p.matters(c.twice) {
			mattering++
		}
		g = append(g, append(p.heading(c.constant), append(p.cells(c.half), p.cells(c.twice)...)...))
	}
	formulas, left := p.rest(ran)
	fmt.Fprintf(&b, "Of %d constants that can be chosen %d were run; %d of these matter.\n\n", len(p.all)-len(formulas)+1, len(p.changed), mattering)
	b.WriteString(g.String())
	writeRest(&b, "Not run, for want of time", left)
	writeRest(&b, "Numbers that belong to a formula, and were not changed", formulas)
	return b.String()
}

// heading says what a constant is.
func (p *constantsPage) heading(c constant) []string {
	s, ok := p.sources[c.key()]
	if !ok {
		s.from = unsourced
	}
	return []string{c.key(), c.text, s.unit, strings.ReplaceAll(strings.Join(strings.Fields(c.what), " "), "|", "\\|"), s.from}
}

// rest lists the numbers of formulas, and what was not run.
func (p *constantsPage) rest(ran map[constant]bool) (formulas, left grid) {
	formulas = grid{{"constant", "value", "unit", "what the code says of it", "source"}}
	left = grid{formulas[0]}
	for _, c := range p.all {
		switch {
		case p.sources[c.key()].formula():
			formulas = append(formulas, p.heading(c))
		case !ran[c]:
			left = append(left, p.heading(c))
		}
	}
	return formulas, left
}

func writeRest(b *strings.Builder, title string, g grid) {
	if len(g) > 1 {
		fmt.Fprintf(b, "\n## %s\n\n%s", title, g)
	}
}

// matters tells whether a change makes hearing worse by more than chance does: F1 by
// 0.01, the error of duration by half of it, or a firing found where there is none.
func (p *constantsPage) matters(t trial) bool {
	return t.failed != "" || t.F1 < p.asIs.F1-0.01 || t.P95 > 1.5*p.asIs.P95 || t.False > p.asIs.False
}

func (p *constantsPage) cells(t trial) []string {
	if t.failed != "" {
		return []string{t.failed, none, none}
	}
	cells := []string{fmt.Sprintf("%.3f", t.F1), fmt.Sprintf("%.3f", 1e3*t.P95), fmt.Sprint(t.False)}
	if p.matters(t) {
		cells[0] = "**" + cells[0] + "**"
	}
	return cells
}

const aboutConstants = `One constant at a time is halved or doubled in the sources, the benchmark is built with
that and hears two clips of each of: %s.

As it is: F1 %.3f over all firings together, 95th percentile of the error of duration
%.3f ms, %d firings found where there are none; worst is %s, F1 %.3f. F1 of a change stands
in bold where the change matters: F1 is lower by more than 0.01, or the error larger by
half, or more is found where there is nothing. So few clips don't tell smaller differences
from chance; a change may do better here and worse elsewhere.

A constant without a name is shown by the function and the expression it stands in. Numbers
0, 1 and 2 in expressions are left out. A whole number whose half is none is rounded up
where the code asks for one. "Common practice" has no source; neither has what was chosen
on synthetic recordings, by trying what found most firings and fewest others there. The
source is said for the constant, not for the weight of what it decides.

`
