package write

import (
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"earshot/report"
	"earshot/report/words"
)

var headings = table.Row{"marked", "exact", "measured", "off the mark", "95 % sure within", "spread", "firings", "verdict"}

// speedTable sets the speeds in columns.
func speedTable(d report.Document) string {
	rows := []table.Row{headings}
	for _, s := range d.Speeds {
		rows = append(rows, speedRow(s))
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

func speedRow(s report.Speed) table.Row {
	marked := words.Mark(s.Marked)
	if s.Assumed {
		marked += " assumed"
	}
	c := s.Cells()
	return table.Row{words.Printable(marked), c.Exact, c.Measured, c.Off, c.U95, c.Spread, c.Firings, s.Verdict.String()}
}
