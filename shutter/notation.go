package shutter

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
)

// Limits of what can be told. No mechanical shutter has a mark outside these times. The other
// two keep a typing error from taking much memory.
const (
	slowestTold = 60.0        // s
	fastestTold = 1.0 / 10000 // s
	maxSteps    = 64          // dial settings in one list
	maxCount    = 99          // firings at one setting
)

// ErrNotation is what every error of ParseMark and ParseSteps is.
var ErrNotation = errors.New("speed not understood")

// NotationError says which word of a list of speeds is not understood.
type NotationError struct {
	Word     string // as it was written, shortened if very long
	Position int    // of the word in its list, from 1; 0 where it stood alone
	Problem  string // what is wrong and what to write
}

func (e *NotationError) Error() string {
	switch {
	case e.Word == "":
		return "no speed told: " + e.Problem
	case e.Position == 0:
		return fmt.Sprintf("speed %q: %s", e.Word, e.Problem)
	}
	return fmt.Sprintf("speed %d, %q: %s", e.Position, e.Word, e.Problem)
}

// Is makes every NotationError an ErrNotation.
func (e *NotationError) Is(target error) bool { return target == ErrNotation }

// ParseMark reads one speed as written on the dial or in full:
//
//	1 1/2 1/30   seconds and fractions of a second
//	30           a whole number above 1 is a dial numeral, 1/30
//	2s 0.5s      seconds; the exact time of a known mark is that mark
//
// A fraction with × ½ ¼ ⅛ or ⁄ typed for its plain form is understood. The mark
// has the exact time of the modern series where it stands in it, else that of the
// older one (see OfOneSeries); one that stands in neither, such as 1/300, is taken
// at its written value. Times are bounded to 1/10000 to 60 s. The error is a
// *NotationError.
func ParseMark(word string) (Mark, error) {
	m, problem := readMark(plain(word))
	if problem != "" {
		return Mark{}, notationError(word, 0, problem)
	}
	return m, nil
}

// ParseSteps reads the dial settings in the order fired, separated by spaces or
// commas, each as ParseMark reads it and, if the number of firings is told, with x
// and a count: "1x3 1/2x3 1/4x5". Marks that stand on both kinds of dial follow
// their company (see OfOneSeries). At most 64 settings of at most 99 firings. The
// error is a *NotationError.
func ParseSteps(list string) ([]Step, error) {
	words := strings.FieldsFunc(list, func(r rune) bool { return unicode.IsSpace(r) || r == ',' || r == ';' })
	if len(words) == 0 {
		return nil, notationError("", 0, `write the settings in the order fired, such as "1x3 1/2x3 1/4x5"`)
	}
	if len(words) > maxSteps {
		return nil, notationError(words[maxSteps], maxSteps+1, fmt.Sprintf("more than %d settings: check them in several lists", maxSteps))
	}
	steps, marks := make([]Step, len(words)), make([]Mark, len(words))
	for i, w := range words {
		step, problem := readStep(plain(w))
		if problem != "" {
			return nil, notationError(w, i+1, problem)
		}
		steps[i], marks[i] = step, step.Mark
	}
	for i, m := range OfOneSeries(marks) {
		steps[i].Mark = m
	}
	return steps, nil
}

// FormatSteps writes the settings as ParseSteps reads them.
func FormatSteps(steps []Step) string {
	words := make([]string, len(steps))
	for i, s := range steps {
		words[i] = s.Mark.Label
		if s.Count > 0 {
			words[i] += "x" + strconv.Itoa(s.Count)
		}
	}
	return strings.Join(words, " ")
}

func notationError(word string, position int, problem string) error {
	if r := []rune(word); len(r) > 24 {
		word = string(r[:24]) + "…"
	}
	return &NotationError{word, position, problem}
}

// plain replaces the signs that keyboards and word processors put in for plain ones. A whole
// number and a fraction run together, as in 1½, give no speed.
func plain(word string) string {
	return strings.NewReplacer("×", "x", "X", "x", "⁄", "/", "∕", "/", "½", "1/2", "¼", "1/4", "⅛", "1/8", "⅕", "1/5", "⅒", "1/10").Replace(word)
}

func readStep(word string) (step Step, problem string) {
	speed, count, counted := strings.Cut(word, "x")
	if speed == "" {
		return Step{}, "no speed before the x: write the count right behind its speed, 1/4x3"
	}
	mark, problem := readMark(speed)
	if problem != "" || !counted {
		return Step{Mark: mark}, problem
	}
	n, ok := wholeNumber(count)
	if !ok || n < 1 || n > maxCount {
		return Step{}, fmt.Sprintf("the count behind the x must be a whole number from 1 to %d, as in 1/4x3", maxCount)
	}
	return Step{Mark: mark, Count: n}, ""
}

// readMark reads a speed in plain signs; problem is empty where it could.
func readMark(word string) (m Mark, problem string) {
	const forms = "write it as on the dial or in full: 1, 1/30, 30 (for 1/30), 2s or 0.5s"
	number, inSeconds := strings.CutSuffix(word, "s")
	if bottom, ok := strings.CutPrefix(number, "1/"); ok {
		return markOver(bottom, forms)
	}
	if inSeconds {
		return markOfSeconds(number, forms)
	}
	if strings.ContainsRune(number, '.') {
		return Mark{}, "a decimal needs an s for seconds: 0.5s"
	}
	if number == "0" {
		return Mark{}, "no shutter is open for 0 s; decimals take a point, 0.5s"
	}
	return markOver(number, forms)
}

// markOver reads the whole number under the fraction, which a dial shows alone.
func markOver(digits, forms string) (m Mark, problem string) {
	d, ok := wholeNumber(digits)
	switch {
	case !ok || d == 0:
		return Mark{}, forms
	case float64(d) > 1/fastestTold:
		return Mark{}, outOfRange()
	case d == 1:
		return Mark{"1", 1}, ""
	}
	label := fraction(d)
	for _, series := range []Series{Binary(), Older()} {
		if known, ok := series.Find(label); ok {
			return known, ""
		}
	}
	return Mark{label, 1 / float64(d)}, ""
}

// markOfSeconds reads a time in s. It is a known mark only where that mark, read
// by itself, has exactly this time; so 0.004s stays 0.004s, since 1/250 is 1/256 s.
func markOfSeconds(number, forms string) (m Mark, problem string) {
	if strings.Trim(number, "0123456789.") != "" {
		return Mark{}, forms
	}
	t, err := strconv.ParseFloat(number, 64)
	if err != nil && !math.IsInf(t, 0) {
		return Mark{}, forms
	}
	if t < fastestTold || t > slowestTold {
		return Mark{}, outOfRange()
	}
	for _, series := range []Series{Binary(), Older()} {
		for _, known := range series.Marks {
			if known.Nominal == t && (series.Name == "binary" || !onBothDials(known.Label)) {
				return known, ""
			}
		}
	}
	return Mark{strconv.FormatFloat(t, 'f', -1, 64) + "s", t}, ""
}

func outOfRange() string {
	return fmt.Sprintf("outside 1/%.0f to %.0f s", 1/fastestTold, slowestTold)
}

// wholeNumber reads plain digits, few enough for an int of any size.
func wholeNumber(digits string) (int, bool) {
	if digits == "" || len(digits) > 6 || strings.Trim(digits, "0123456789") != "" {
		return 0, false
	}
	n, err := strconv.Atoi(digits)
	return n, err == nil
}
