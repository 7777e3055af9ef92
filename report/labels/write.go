package labels

import (
	"bufio"
	"fmt"
	"io"
	"slices"

	"earshot/report"
	"earshot/report/words"
)

// neverClosed is what the label of a firing without a closing says.
const neverClosed = "never closed"

// Write writes the firings of a document of one clip, to the µs. A label begins with
// a speed only if that is neither assumed nor in doubt.
func Write(w io.Writer, d report.Document) error {
	b := bufio.NewWriter(w)
	for i, f := range d.Firings {
		end := f.Open
		if f.Close != nil {
			end = *f.Close
		}
		fmt.Fprintf(b, "%.6f\t%.6f\t%s\n", f.Open, end, label(d, i))
	}
	return b.Flush()
}

// label is the label of firing i: "1/4, firing 7", "firing 7, 1/4 assumed".
func label(d report.Document, i int) string {
	f := d.Firings[i]
	text := fmt.Sprintf("firing %d", i+1)
	switch {
	case f.Marked == nil:
	case f.Assumed:
		text += ", " + *f.Marked + " assumed"
	case f.Judged || faulty(d, i):
		text = *f.Marked + ", " + text
	default:
		text += ", not counted at " + *f.Marked
	}
	switch {
	case f.Close == nil:
		text += ", " + neverClosed
	case f.StayedOpen():
		text += ", stayed open"
	}
	return words.Printable(text)
}

// faulty tells whether a symptom of a speed rests on firing i: it counts in no mean, but its
// speed is not in doubt.
func faulty(d report.Document, i int) bool {
	return slices.ContainsFunc(d.Speeds, func(s report.Speed) bool {
		return slices.ContainsFunc(s.Symptoms, func(y report.Symptom) bool { return slices.Contains(y.Firings, i) })
	})
}
