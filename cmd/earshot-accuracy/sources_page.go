package main

import (
	"cmp"
	"fmt"
	"math"
	"runtime"
	"slices"
	"strings"

	"earshot/dsp/outside"
)

const aboutSources = `# Checked against the outside

What this program works out, held against figures that others stand for: standards,
handbooks, papers, and libraries that others wrote. Written by ` + "`make sources`" + ` from a run of
the tests that compare them, on %s/%s: %d comparisons with %d sources. What was not run is
not here, and where a value does not agree no page is written.

Digits are counted as the log relative error, −log10(|ours − theirs| / |theirs|), as NIST does
for its reference data sets: about the number of significant digits that agree. They are
those of the value that agrees the least, of a signal by the share of its largest sample; 16
is all that a float64 holds. "As printed" are figures that were rounded to be printed: ours,
rounded alike, are the same. "Held to" is where the test fails. From memory means that the
source was not at hand when the figure was written down.
`

// page is docs/sources.md.
func (a agreement) page() string {
	compared, bySource := 0, map[outside.Source][]outside.Finding{}
	for _, f := range together(a.findings) {
		if f.Apart == "" {
			compared++
		}
		bySource[f.Source] = append(bySource[f.Source], f)
	}
	var b strings.Builder
	fmt.Fprintf(&b, aboutSources, runtime.GOOS, runtime.GOARCH, compared, len(bySource))
	sources := make([]outside.Source, 0, len(bySource))
	for s := range bySource {
		sources = append(sources, s)
	}
	slices.SortFunc(sources, func(x, y outside.Source) int {
		return cmp.Or(cmp.Compare(strings.ToLower(x.Name), strings.ToLower(y.Name)), cmp.Compare(x.Figures, y.Figures))
	})
	for _, s := range sources {
		fmt.Fprintf(&b, "\n## %s\n\nFigures: %s.\n\n", s.Name, s.Figures)
		b.WriteString(comparisons(bySource[s]))
		b.WriteString(notCompared(bySource[s]))
	}
	if len(a.skipped) > 0 {
		b.WriteString("\n## Left out\n\nFor want of something on the machine of this run:\n\n")
		for _, s := range a.skipped {
			fmt.Fprintf(&b, "- %s\n", s)
		}
	}
	return b.String()
}

// notCompared lists what is not held against a source, and why; nothing where all is.
func notCompared(some []outside.Finding) string {
	var b strings.Builder
	for _, f := range some {
		if f.Apart != "" {
			fmt.Fprintf(&b, "- %s: %s.\n", f.What, f.Apart)
		}
	}
	if b.Len() == 0 {
		return ""
	}
	return "\nNot compared:\n\n" + b.String()
}

// comparisons is the table of what was held against one source.
func comparisons(some []outside.Finding) string {
	g := grid{{"compared", "values", "digits that agree", "held to"}}
	for _, f := range some {
		if f.Apart == "" {
			g = append(g, []string{f.What, fmt.Sprint(f.Values), agreedDigits(f), heldDigits(f)})
		}
	}
	return g.String()
}

// together joins the findings of one source and one kind: their values, the digits of the one
// that agrees least, and the strictest requirement.
func together(findings []outside.Finding) []outside.Finding {
	type kind struct {
		source outside.Source
		what   string
	}
	var all []outside.Finding
	at := map[kind]int{}
	for _, f := range findings {
		k := kind{f.Source, f.What}
		i, seen := at[k]
		if !seen {
			at[k] = len(all)
			all = append(all, f)
			continue
		}
		a := &all[i]
		a.Values += f.Values
		a.Alike += f.Alike
		a.Digits, a.Held = min(a.Digits, f.Digits), max(a.Held, f.Held)
		a.Printed, a.Exact = a.Printed && f.Printed, a.Exact && f.Exact
	}
	return all
}

func agreedDigits(f outside.Finding) string {
	switch {
	case f.Exact:
		return "all, exactly"
	case f.Alike > 0:
		return fmt.Sprintf("%d of %d", f.Alike, f.Values)
	case f.Printed && f.Digits < f.Held:
		return fmt.Sprintf("as printed, %.0f to %.0f", f.Digits, f.Held)
	case f.Printed:
		return fmt.Sprintf("as printed, %.0f", f.Digits)
	}
	return fmt.Sprintf("%.1f", math.Floor(10*f.Digits)/10)
}

func heldDigits(f outside.Finding) string {
	switch {
	case f.Exact:
		return "exactly"
	case f.Alike > 0:
		return fmt.Sprintf("%g %%", 100*f.Held)
	case f.Printed:
		return "all printed"
	}
	return fmt.Sprintf("%g", f.Held)
}
