// Package outside holds figures of this program against figures from outside the
// project: standards, handbooks, papers, and libraries that others wrote. It is for
// tests alone.
//
// Each check names its [Source], fails where too little agrees, and leaves a [Finding]
// of what did agree in the log of the test, from which the page docs/sources.md is
// written. [Agree] and [All] are for figures of full precision, [Printed] for those
// that were rounded to be printed, [Exact] for counts, samples and words, [Share]
// for what two may rightly see a little differently.
//
// Digits are counted as the log relative error, −log10(|got − want| / |want|), as the
// NIST Statistical Reference Datasets do: about the number of significant digits that
// agree, and 16, all that a float64 has, where both are equal.
package outside

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

// Source is where figures come from that others stand for.
type Source struct {
	Name    string // the standard, paper or library, with its clause or version
	Figures string // how its figures came here: read there, run here, from memory
}

// every is the digits of two figures that are equal.
const every = 16

// Agree fails the test where fewer than so many significant digits of got are those
// of want. A want of 0 is held to that many decimals.
func Agree(t testing.TB, s Source, what string, got, want, digits float64) {
	t.Helper()
	All(t, s, what, []float64{got}, []float64{want}, digits)
}

// All is Agree for many figures of one kind, such as the samples of a signal, whose
// digits are those of the largest: a difference counts by its share of that. It fails
// where there are none, or not as many of the one as of the other.
func All(t testing.TB, s Source, what string, got, want []float64, digits float64) {
	t.Helper()
	if len(want) == 0 || len(got) != len(want) {
		t.Errorf("%s: %d figures, %s has %d", what, len(got), s.Name, len(want))
		return
	}
	scale, most, worst := 0.0, -1.0, 0
	for i := range want {
		scale = math.Max(scale, math.Abs(want[i]))
		if off := difference(got[i], want[i]); off > most {
			most, worst = off, i
		}
	}
	d := agreed(most, scale)
	if math.IsInf(most, 1) || d < digits {
		t.Errorf("%s: %.15g, %s has %.15g: %.1f digits agree, want %g", what, got[worst], s.Name, want[worst], d, digits)
		return
	}
	log(t, Finding{Source: s, What: what, Values: len(want), Digits: d, Held: digits})
}

// difference is how far two figures lie apart, +Inf where one is no number.
func difference(a, b float64) float64 {
	if d := math.Abs(a - b); !math.IsNaN(d) {
		return d
	}
	return math.Inf(1)
}

// agreed is the digits of figures of a scale that differ by so much at the most.
func agreed(off, scale float64) float64 {
	switch {
	case off == 0:
		return every
	case scale > 0:
		off /= scale
	}
	return min(every, math.Max(0, -math.Log10(off)))
}

// Printed fails the test where got, rounded to the decimals of a figure as it was
// printed, is not that figure.
func Printed(t testing.TB, s Source, what string, got float64, printed string) {
	t.Helper()
	_, decimals, _ := strings.Cut(printed, ".")
	if rounded := strconv.FormatFloat(got, 'f', len(decimals), 64); rounded != printed {
		t.Errorf("%s: %s (%.15g), %s prints %s", what, rounded, got, s.Name, printed)
		return
	}
	significant := strings.TrimLeft(strings.ReplaceAll(printed, ".", ""), "-0")
	n := float64(max(1, len(significant)))
	log(t, Finding{Source: s, What: what, Values: 1, Digits: n, Held: n, Printed: true})
}

// Exact fails the test where one of got differs from its fellow in want at all, and
// where there are none.
func Exact[T comparable](t testing.TB, s Source, what string, got, want []T) {
	t.Helper()
	if len(want) == 0 || len(got) != len(want) {
		t.Errorf("%s: %d values, %s has %d", what, len(got), s.Name, len(want))
		return
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("%s, number %d of %d: %v, %s has %v", what, i+1, len(want), got[i], s.Name, want[i])
			return
		}
	}
	log(t, Finding{Source: s, What: what, Values: len(want), Exact: true})
}

// Share fails the test where fewer than a share of so many values are alike by the
// test's own measure, which what must name, and where there are none. It is for what
// two may rightly see a little differently.
func Share(t testing.TB, s Source, what string, alike, of int, least float64) {
	t.Helper()
	if of == 0 || float64(alike) < least*float64(of) {
		t.Errorf("%s: %d of %d are as by %s, want %g %%", what, alike, of, s.Name, 100*least)
		return
	}
	log(t, Finding{Source: s, What: what, Values: of, Alike: alike, Held: least})
}

// Apart says what is not held against the source, and why.
func Apart(t testing.TB, s Source, what, why string) {
	t.Helper()
	log(t, Finding{Source: s, What: what, Apart: why})
}
