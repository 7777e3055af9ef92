package synth

import (
	"fmt"
	"math"
	"strings"
)

// Setting is one setting of the dial and how often the shutter is fired at it.
type Setting struct {
	Label   string  // as marked
	Nominal float64 // exact time behind the mark, s
	Count   int     // firings
}

// Modern is the modern series from 1 to 1/500, whose exact times are binary.
func Modern() []Setting {
	marks := []int{1, 2, 4, 8, 15, 30, 60, 125, 250, 500}
	s := make([]Setting, len(marks))
	for i, m := range marks {
		s[i] = Setting{Label: label(m), Nominal: math.Pow(2, -float64(i))}
	}
	return s
}

// Older is the older series from 1 to 1/250, whose exact times are the marks.
func Older() []Setting {
	marks := []int{1, 2, 5, 10, 25, 50, 100, 250}
	s := make([]Setting, len(marks))
	for i, m := range marks {
		s[i] = Setting{Label: label(m), Nominal: 1 / float64(m)}
	}
	return s
}

func label(mark int) string {
	if mark == 1 {
		return "1"
	}
	return fmt.Sprintf("1/%d", mark)
}

// Fire is the settings with count firings at each.
func Fire(settings []Setting, count int) []Setting {
	out := make([]Setting, len(settings))
	for i, s := range settings {
		s.Count = count
		out[i] = s
	}
	return out
}

// Notation writes settings as a person would note them: "1x3 1/2x3".
func Notation(settings []Setting) string {
	words := make([]string, len(settings))
	for i, s := range settings {
		words[i] = fmt.Sprintf("%sx%d", s.Label, s.Count)
	}
	return strings.Join(words, " ")
}
