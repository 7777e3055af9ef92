package drawer

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"

	"earshot/report/words"
)

var summaryColumns = []string{
	"lens", "serial", "sitting", "verdict", "judged", "partly_checked", "found", "next",
	"furthest_off", "furthest_off_stops", "furthest_off_u95_stops", "firings", "firings_counted",
	"shutter", "rested", "temperature_c", "note", "observed", "clips", "made", "record", "chart", "sheet",
}

// WriteCSV writes one row a lens under a row of headings, in the order to be looked
// at, with the further columns of the list behind. Marks carry their unit ("1/30 s"),
// since a spreadsheet takes a bare 1/30 for a date, and text that looks like a formula
// has an apostrophe before it.
func (s Summary) WriteCSV(w io.Writer) error {
	head := append([]string{}, summaryColumns...)
	for _, name := range s.Extra {
		head = append(head, words.Cell(name))
	}
	rows := [][]string{head}
	for _, e := range s.Entries {
		row := e.cells()
		for i := range s.Extra {
			row = append(row, extraCell(e.Lens.Extra, i))
		}
		rows = append(rows, row)
	}
	if err := csv.NewWriter(w).WriteAll(rows); err != nil {
		return fmt.Errorf("writing CSV: %w", err)
	}
	return nil
}

// extraCell is a further cell of the list; a number stays one.
func extraCell(values []string, i int) string {
	if i >= len(values) {
		return ""
	}
	if _, err := strconv.ParseFloat(values[i], 64); err == nil {
		return values[i]
	}
	return words.Cell(values[i])
}

func (e Entry) cells() []string {
	var partly, marked, stops, u95, heard, counted, made string
	if d := e.Record; d != nil {
		partly, made = map[bool]string{true: "yes", false: "no"}[d.Partly], d.Made.Format(time.RFC3339)
		n := 0
		for _, f := range d.Firings {
			if f.Judged {
				n++
			}
		}
		heard, counted = strconv.Itoa(len(d.Firings)), strconv.Itoa(n)
	}
	if speed, off, ok := e.Furthest(); ok {
		marked, stops, u95 = words.Mark(speed.Marked), words.Number(&off), words.Number(speed.U95)
	}
	l := e.Lens
	return []string{
		words.Cell(l.Name), words.Cell(l.Serial), words.Cell(l.Sitting), e.Verdict(), words.Cell(e.Judged()), partly,
		words.Cell(strings.Join(e.Found(), "; ")), words.Cell(e.ToDo()), words.Cell(marked), stops, u95, heard, counted,
		l.Shutter, words.Cell(l.Rested), words.Number(l.Temperature), words.Cell(l.Note), words.Cell(l.seenWords()), words.Cell(strings.Join(l.names(), "; ")), made,
		words.Cell(e.File("record")), words.Cell(e.File("chart")), words.Cell(e.File("sheet")),
	}
}

// File is the name of the file of a kind written for the lens; empty where there is
// none.
func (e Entry) File(kind string) string {
	for _, f := range e.Files {
		if f.Kind == kind {
			return f.Name
		}
	}
	return ""
}

// seenWords is what a person saw of the lens: "glass: clean; body: worn".
func (l Lens) seenWords() string {
	var words []string
	seen, _ := l.Observed()
	for _, o := range seen {
		words = append(words, o.What+": "+o.Seen)
	}
	return strings.Join(words, "; ")
}

func (l Lens) names() []string {
	names := make([]string, len(l.Clips))
	for i, c := range l.Clips {
		names[i] = c.Name
	}
	return names
}
