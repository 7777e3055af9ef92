package chart

import (
	"strings"

	"gonum.org/v1/plot/vg"

	"earshot/report/chart/paper"
)

// mostFindings is how many lines of findings leave room for the chart. It is enough for all
// speeds that sound can judge, each with a finding of its own.
const mostFindings = 8

// drawHead draws the lens, the verdict, the findings and the legend, and returns their height.
// A long list of findings makes the plotted area smaller.
func (p page) drawHead() vg.Length {
	p.drawTitle()
	top, width := p.c.Max.Y, p.c.Max.X-p.c.Min.X
	verdict := paper.Bold(paper.Aligned(p.Style(12, paper.Ink), 0, -1))
	p.c.FillText(verdict, vg.Point{X: p.c.Min.X, Y: top - vg.Points(21)}, p.Fit(verdict, width, p.Verdict))
	plain := paper.Aligned(p.Style(10, paper.Ink), 0, -1)
	y := top - vg.Points(38)
	for _, l := range p.findingLines() {
		p.c.FillText(plain, vg.Point{X: p.c.Min.X, Y: y}, l)
		y -= vg.Points(12)
	}
	y -= vg.Points(12)
	p.drawLegend(y)
	return top - y + p.legendHeight()
}

// legendHeight is from the middle of the legend's first row to the plotted area.
func (p page) legendHeight() vg.Length {
	return vg.Points(18 + paper.LegendRow*float64(max(0, len(p.legendRows())-1)))
}

func (p page) drawTitle() {
	title := paper.Bold(paper.Aligned(p.Style(15, paper.Ink), 0, 0))
	date := paper.Aligned(p.Style(10, paper.Ink), -1, -1)
	top := p.c.Max.Y
	room := p.c.Max.X - p.c.Min.X - date.Width(p.Date) - vg.Points(12)
	title = p.Shrink(title, 11, room, p.Title+p.Number)
	number := p.Fit(title, room/3, p.Number)
	p.c.FillText(title, vg.Point{X: p.c.Min.X, Y: top - vg.Points(13)}, p.Fit(title, room-title.Width(number), p.Title)+number)
	p.c.FillText(date, vg.Point{X: p.c.Max.X, Y: top - vg.Points(3)}, p.Date)
}

// findingLines sets the findings, a few below one another, more of them in a row.
func (p page) findingLines() []string {
	const few = 5
	plain, width := p.Style(10, paper.Ink), p.c.Max.X-p.c.Min.X
	var lines []string
	for _, f := range p.Findings {
		lines = append(lines, p.Wrap(plain, width, f, mostFindings)...)
	}
	if len(p.Findings) <= few && len(lines) <= mostFindings {
		return lines
	}
	return p.Wrap(plain, width, strings.Join(p.Findings, ". "), mostFindings)
}

func (p page) drawFooter() {
	sty := paper.Aligned(p.Style(8, paper.Soft), 0, 0)
	y := p.c.Min.Y + vg.Points(10*float64(len(p.Footer)-1)+1)
	for _, l := range p.Footer {
		p.c.FillText(sty, vg.Point{X: p.c.Min.X, Y: y}, p.Fit(sty, p.c.Max.X-p.c.Min.X, l))
		y -= vg.Points(10)
	}
}
