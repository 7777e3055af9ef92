package chart

import (
	"strings"

	"gonum.org/v1/plot/vg"
)

// mostFindings is how many lines of findings leave room for the chart: enough for as
// many speeds as sound can judge, each off in its own way.
const mostFindings = 8

// drawHead draws the lens, the verdict, what was found and the legend, and returns
// the height that takes: the plotted area gives way to a long list of findings.
func (p page) drawHead() vg.Length {
	p.drawTitle()
	top, width := p.c.Max.Y, p.c.Max.X-p.c.Min.X
	verdict := bold(aligned(p.style(12, ink), 0, -1))
	p.c.FillText(verdict, vg.Point{X: p.c.Min.X, Y: top - vg.Points(21)}, p.fit(verdict, width, p.Verdict))
	plain := aligned(p.style(10, ink), 0, -1)
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
	return vg.Points(18 + legendRow*float64(max(0, len(p.legendRows())-1)))
}

func (p page) drawTitle() {
	title := bold(aligned(p.style(15, ink), 0, 0))
	date := aligned(p.style(10, ink), -1, -1)
	top := p.c.Max.Y
	room := p.c.Max.X - p.c.Min.X - date.Width(p.Date) - vg.Points(12)
	title = p.shrink(title, 11, room, p.Title+p.Number)
	number := p.fit(title, room/3, p.Number)
	p.c.FillText(title, vg.Point{X: p.c.Min.X, Y: top - vg.Points(13)}, p.fit(title, room-title.Width(number), p.Title)+number)
	p.c.FillText(date, vg.Point{X: p.c.Max.X, Y: top - vg.Points(3)}, p.Date)
}

// findingLines sets the findings, a few below one another, more of them in a row.
func (p page) findingLines() []string {
	const few = 5
	plain, width := p.style(10, ink), p.c.Max.X-p.c.Min.X
	var lines []string
	for _, f := range p.Findings {
		lines = append(lines, p.wrap(plain, width, f, mostFindings)...)
	}
	if len(p.Findings) <= few && len(lines) <= mostFindings {
		return lines
	}
	return p.wrap(plain, width, strings.Join(p.Findings, ". "), mostFindings)
}

func (p page) drawFooter() {
	sty := aligned(p.style(8, soft), 0, 0)
	y := p.c.Min.Y + vg.Points(10*float64(len(p.Footer)-1)+1)
	for _, l := range p.Footer {
		p.c.FillText(sty, vg.Point{X: p.c.Min.X, Y: y}, p.fit(sty, p.c.Max.X-p.c.Min.X, l))
		y -= vg.Points(10)
	}
}
