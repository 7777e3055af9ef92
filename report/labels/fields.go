package labels

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"earshot/shutter"
)

// readTime reads a time in s, as digits with or without a point, and how many
// decimals it has. The column is that of the field.
func readTime(field string, column int) (t float64, decimals int, err error) {
	word := strings.TrimSpace(field)
	column += utf8.RuneCountInString(field) - utf8.RuneCountInString(strings.TrimLeftFunc(field, unicode.IsSpace))
	if problem := wrongTime(word); problem != "" {
		return 0, 0, &Error{Column: column, Problem: problem}
	}
	t, err = strconv.ParseFloat(word, 64)
	if err != nil {
		return 0, 0, &Error{Column: column, Problem: fmt.Sprintf("%q is no time in s", shortened(word))}
	}
	_, places, _ := strings.Cut(word, ".")
	return t, len(places), nil
}

// wrongTime says what is wrong with a time as it is written, empty where nothing is.
func wrongTime(word string) string {
	const mostDigits = 20
	unsigned := strings.TrimLeft(word, "-−")
	switch {
	case word == "":
		return "a time is missing: write start and end in s, as in 1.472"
	case strings.Trim(word, "0123456789,") == "" && strings.Count(word, ",") == 1:
		return fmt.Sprintf("%q has a comma: write it with a point, %s", shortened(word), shortened(strings.Replace(word, ",", ".", 1)))
	case unsigned != word && isTime(unsigned):
		return fmt.Sprintf("%q lies before the clip's start: times count from there, in s", shortened(word))
	case !isTime(word) || len(word) > mostDigits:
		return fmt.Sprintf("%q is no time: write seconds from the clip's start, as in 1.472", shortened(word))
	}
	return ""
}

// isTime tells whether a word is digits with at most one point among or before them.
func isTime(word string) bool {
	whole, places, _ := strings.Cut(word, ".")
	return whole+places != "" && strings.Trim(whole+places, "0123456789") == ""
}

// readMark reads the speed that a label begins with, the zero Mark where it begins
// with none. A speed may have its s apart: "1/4 s", "2 s".
func readMark(text string, column int) (shutter.Mark, error) {
	words := strings.FieldsFunc(text, func(r rune) bool { return unicode.IsSpace(r) || r == ',' || r == ';' || r == ':' })
	if len(words) == 0 {
		return shutter.Mark{}, nil
	}
	first, _ := utf8.DecodeRuneInString(words[0])
	if !unicode.IsNumber(first) {
		return shutter.Mark{}, nil
	}
	word := words[0]
	if len(words) > 1 && slices.Contains([]string{"s", "sec", "second", "seconds"}, words[1]) {
		word += "s"
	}
	m, err := shutter.ParseMark(word)
	if err != nil {
		var notation *shutter.NotationError
		problem := err.Error()
		if errors.As(err, &notation) {
			problem = notation.Problem
		}
		column += utf8.RuneCountInString(text[:strings.Index(text, words[0])])
		return shutter.Mark{}, &Error{Column: column, Problem: fmt.Sprintf("the label begins with %q, which is no speed: %s", shortened(word), problem)}
	}
	return m, nil
}

func shortened(word string) string {
	if r := []rune(word); len(r) > 24 {
		return string(r[:24]) + "…"
	}
	return word
}
