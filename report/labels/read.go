package labels

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"unicode/utf8"
)

// maxFile bounds what is read, in bytes: labels of a thousand firings stay below 100 KB.
const maxFile = 1 << 20

// Read reads a file of labels. It refuses what is ambiguous: its error is an *Error, or the
// reader's own. Labels may stand in any order; lines may end as any
// system ends them, and begin with a byte order mark.
func Read(r io.Reader) (Track, error) {
	b, err := io.ReadAll(io.LimitReader(r, maxFile+1))
	if err != nil {
		return Track{}, fmt.Errorf("reading labels: %w", err)
	}
	if len(b) > maxFile {
		return Track{}, &Error{1, 1, fmt.Sprintf("larger than %d MB: this is no file of labels", maxFile>>20)}
	}
	text := strings.TrimPrefix(string(b), "\ufeff")
	text = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text)
	decimals := 0
	var t Track
	for i, line := range strings.Split(text, "\n") {
		if strings.TrimSpace(line) == "" {
			continue
		}
		l, places, err := readLine(line)
		if err != nil {
			var at *Error
			if errors.As(err, &at) {
				at.Line = i + 1
			}
			return Track{}, err
		}
		l.Line = i + 1
		t.Labels, decimals = append(t.Labels, l), max(decimals, places)
	}
	t.Step = math.Pow10(-decimals)
	slices.SortStableFunc(t.Labels, func(a, b Label) int { return cmp.Compare(a.Open, b.Open) })
	return t, t.apart()
}

// apart checks that no firing begins before the one before has ended.
func (t Track) apart() error {
	for i := 1; i < len(t.Labels); i++ {
		before, l := t.Labels[i-1], t.Labels[i]
		if l.Open <= max(before.Open, before.Close) {
			return &Error{l.Line, 1, fmt.Sprintf("overlaps with the label of line %d: a shutter closes before it opens again", before.Line)}
		}
	}
	return nil
}

// readLine reads one label, and how many decimals its times have. The error has the
// column; the line is the caller's to know.
func readLine(line string) (l Label, decimals int, err error) {
	if !utf8.ValidString(line) || strings.ContainsRune(line, 0) {
		return Label{}, 0, &Error{Column: 1, Problem: "not plain text: save the labels as UTF-8 text"}
	}
	fields := strings.SplitN(line, "\t", 3)
	if len(fields) < 2 {
		return Label{}, 0, &Error{Column: 1, Problem: "there is no tab in it: write start, end and label with a tab between them, as in 1.472<tab>2.482<tab>1/4"}
	}
	column := 1
	var times [2]float64
	for i := range times {
		t, places, err := readTime(fields[i], column)
		if err != nil {
			return Label{}, 0, err
		}
		times[i], decimals = t, max(decimals, places)
		column += utf8.RuneCountInString(fields[i]) + 1
	}
	if times[1] < times[0] {
		return Label{}, 0, &Error{Column: 1, Problem: fmt.Sprintf("it ends at %g s, before it starts at %g s: write the opening first", times[1], times[0])}
	}
	l.Open = times[0]
	if l.Closed = times[1] > times[0]; l.Closed {
		l.Close = times[1]
	}
	text := strings.Join(fields[2:], "")
	if !l.Closed && !strings.Contains(strings.ToLower(text), neverClosed) {
		return Label{}, 0, &Error{Column: column, Problem: fmt.Sprintf("a label without length is a firing that never closed: say %q in it, drag its end to the closing, or delete it", neverClosed)}
	}
	l.Mark, err = readMark(text, column)
	return l, decimals, err
}
