package write

import (
	"bytes"
	"fmt"
	"io"

	"github.com/jedib0t/go-pretty/v6/table"

	"earshot/report"
	"earshot/report/words"
	"earshot/shutter"
)

// Comparison writes what changed for a person: both sittings, a table of the
// speeds, and one sentence in sum.
func Comparison(w io.Writer, c report.Comparison) error {
	var b bytes.Buffer
	fmt.Fprintln(&b, words.Printable(c.Heading()))
	if len(c.Speeds) > 0 {
		fmt.Fprintf(&b, "\n%s\n", changeTable(c))
	}
	fmt.Fprintf(&b, "\n%s.\n", words.Printable(c.Sum))
	writeList(&b, "Keep in mind", c.Warnings)
	_, err := b.WriteTo(w)
	return err
}

func changeTable(c report.Comparison) string {
	rows := []table.Row{{"marked", "before", "after", "change", "95 % sure within", "spread", "verdict"}}
	for _, p := range c.Speeds {
		rows = append(rows, table.Row{words.Printable(words.Mark(p.Marked)), foundWords(p.Before), foundWords(p.After),
			p.ChangeWords(), words.Dash(p.U95, "±%.2f stop"), spreads(p), p.VerdictWords()})
	}
	return Columns(rows, "95 % sure within", "spread")
}

func foundWords(f *report.Found) string {
	if f == nil || f.Deviation == nil {
		return f.WhyNoMean()
	}
	return shutter.DeviationText(*f.Deviation)
}

func spreads(p report.SpeedChange) string {
	one := func(f *report.Found) string {
		if f == nil {
			return "-"
		}
		return words.Dash(f.Spread, "%.2f")
	}
	return one(p.Before) + " → " + one(p.After)
}
