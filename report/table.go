package report

import (
	"fmt"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"earshot/report/words"
	"earshot/shutter"
)

var headings = table.Row{"marked", "exact", "measured", "off the mark", "95 % sure within", "spread", "firings", "verdict"}

// table sets the speeds in columns.
func (d Document) table() string {
	rows := []table.Row{headings}
	for _, s := range d.Speeds {
		rows = append(rows, s.row())
	}
	return Columns(rows, "exact", "measured", "95 % sure within", "spread", "firings")
}

// Columns sets rows below the first, which names the columns, without rules or
// colour; those named are aligned at the right. Cells are made
// safe by the caller.
func Columns(rows []table.Row, right ...string) string {
	t := table.NewWriter()
	t.SetStyle(plain())
	t.AppendHeader(rows[0])
	t.AppendRows(rows[1:])
	var configs []table.ColumnConfig
	for _, name := range right {
		configs = append(configs, table.ColumnConfig{Name: name, Align: text.AlignRight, AlignHeader: text.AlignRight})
	}
	t.SetColumnConfigs(configs)
	lines := strings.Split(t.Render(), "\n")
	for i, l := range lines {
		lines[i] = strings.TrimRight(l, " ")
	}
	return strings.Join(lines, "\n")
}

func plain() table.Style {
	return table.Style{
		Box:     table.BoxStyle{PaddingRight: "  "},
		Format:  table.FormatOptions{Header: text.FormatDefault, Row: text.FormatDefault},
		Options: table.OptionsNoBordersAndSeparators,
	}
}

func (s Speed) row() table.Row {
	marked := words.Mark(s.Marked)
	if s.Assumed {
		marked += " assumed"
	}
	c := s.Cells()
	return table.Row{words.Printable(marked), c.Exact, c.Measured, c.Off, c.Sure, c.Spread, c.Firings, s.Verdict.String()}
}

// Cells are the figures of a speed as a table shows them, "-" where there is none.
type Cells struct{ Exact, Measured, Off, Sure, Spread, Firings string }

// Cells are the figures of the speed in words.
func (s Speed) Cells() Cells {
	c := Cells{
		Exact: words.ExactMilliseconds(s.Nominal) + " ms", Measured: "-", Off: "-", Sure: words.Dash(s.U95, "±%.2f stop"),
		Spread: words.Dash(s.Spread, "%.2f stop"), Firings: fmt.Sprint(s.N),
	}
	switch {
	case s.Mean != nil && s.Deviation != nil:
		c.Measured, c.Off = words.Milliseconds(*s.Mean)+" ms", shutter.DeviationText(*s.Deviation)
	case s.Median != nil:
		c.Measured, c.Off = "median "+words.Milliseconds(s.MedianTime())+" ms", shutter.DeviationText(*s.Median)
	}
	if s.N != len(s.Firings) {
		c.Firings = fmt.Sprintf("%d of %d", s.N, len(s.Firings))
	}
	return c
}
