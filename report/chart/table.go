package chart

import (
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"earshot/report/chart/paper"
	"earshot/shutter/judge"
)

// drawTable writes the figures of each speed under its column.
func (p page) drawTable(inner draw.Canvas, trX func(float64) vg.Length) {
	plain, strong := p.Style(9, paper.Ink), paper.Bold(p.Style(10, paper.Ink))
	row := func(n float64) vg.Length { return inner.Min.Y - vg.Points(5+11.5*n) }
	for i, name := range p.rowNames() {
		p.c.FillText(paper.Aligned(plain, 0, -1), vg.Point{X: p.c.Min.X, Y: row(float64(i))}, name)
	}
	width := (trX(1) - trX(0)) * 0.98
	for i, col := range p.Columns {
		x := trX(float64(i))
		cell := func(n float64, sty draw.TextStyle, txt string) {
			sty = p.Shrink(sty, 7, width, txt)
			p.c.FillText(paper.Aligned(sty, -0.5, -1), vg.Point{X: x, Y: row(n)}, p.Fit(sty, width, txt))
		}
		if col.Assumed {
			paper.Label(p.c, plain, vg.Point{X: x, Y: inner.Min.Y + vg.Points(4)}, "assumed")
		}
		cell(0, strong, col.Marked)
		if p.Bare {
			continue
		}
		for j, txt := range col.Cells {
			cell(float64(1+j), plain, txt)
		}
		for j, word := range strings.Fields(col.Verdict.String()) { // so that many speeds fit side by side
			cell(float64(1+len(col.Cells))+float64(j)*0.9, verdictStyle(col.Verdict, plain), word)
		}
	}
}

func (p page) rowNames() []string {
	if p.Bare {
		return []string{"marked"}
	}
	return append([]string{"marked"}, p.Rows...)
}

func verdictStyle(verdict judge.Verdict, plain draw.TextStyle) draw.TextStyle {
	if verdict == judge.ServiceAdvised {
		return paper.Bold(plain)
	}
	return plain
}
