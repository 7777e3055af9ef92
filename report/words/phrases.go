package words

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// NotTested says what a judgement by sound leaves out; it goes wherever a verdict is
// shown to a buyer.
const NotTested = "Timed by sound, not by light. Fast speeds, aperture, flash contacts and film transport are not tested."

// Plural counts things: "1 firing", "2 firings", "3 lenses".
func Plural(n int, noun string) string {
	switch {
	case n == 1:
		return "1 " + noun
	case strings.HasSuffix(noun, "s"):
		return fmt.Sprintf("%d %ses", n, noun)
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// Firings names firings as a person counts them, from 1: "firings 1 to 5, 8".
func Firings(indices []int) string {
	sorted := slices.Compact(slices.Sorted(slices.Values(indices)))
	var parts []string
	for len(sorted) > 0 {
		n := 1
		for n < len(sorted) && sorted[n] == sorted[0]+n {
			n++
		}
		part := fmt.Sprint(sorted[0] + 1)
		if n > 1 {
			part += fmt.Sprintf(" to %d", sorted[0]+n)
		}
		parts, sorted = append(parts, part), sorted[n:]
	}
	if len(indices) == 1 {
		return "firing " + parts[0]
	}
	return "firings " + strings.Join(parts, ", ")
}

// AtSeconds names times, the first few of many.
func AtSeconds(times []float64) string {
	const few = 8
	var named []string
	for _, t := range times[:min(few, len(times))] {
		named = append(named, fmt.Sprintf("%.3f", t))
	}
	if more := len(times) - few; more > 0 {
		return fmt.Sprintf("at %s s and %d more", strings.Join(named, ", "), more)
	}
	return "at " + strings.Join(named, ", ") + " s"
}

// Dash prints a figure in a format, and "-" where there is none.
func Dash(x *float64, format string) string {
	if x == nil {
		return "-"
	}
	return fmt.Sprintf(format, *x)
}

// Short is the beginning of a checksum, enough to tell clips apart by eye.
func Short(sha256 string) string {
	if len(sha256) > 12 {
		return sha256[:12]
	}
	return sha256
}

// Capital is s with a capital letter at its beginning.
func Capital(s string) string {
	if s == "" {
		return s
	}
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[size:]
}

// Sentence is words as a sentence.
func Sentence(s string) string {
	if s == "" {
		return s
	}
	return Capital(s) + "."
}

// ClosedEarly is said of a firing whose blades closed much too soon.
const ClosedEarly = "closed early"
