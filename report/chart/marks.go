package chart

import (
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"earshot/report/chart/paper"
)

// ground draws what lies under the marks: the hatching of assumed speeds, the good
// band, the grid and the limits.
type ground struct{ Figure }

func (g ground) Plot(c draw.Canvas, p *plot.Plot) {
	trX, trY := p.Transforms(&c)
	c.FillPolygon(paper.Band, paper.Rectangle(c.Min.X, c.Max.X, trY(-g.Good), trY(g.Good)))
	for i, col := range g.Columns {
		if col.Assumed {
			hatch(c, trX(float64(i)-0.48), trX(float64(i)+0.48))
		}
	}
	for _, t := range ticks(g.Low, g.High) {
		c.StrokeLine2(paper.Line(0.4, paper.Faint), c.Min.X, trY(t.Value), c.Max.X, trY(t.Value))
	}
	for i := 1; i < len(g.Columns); i++ {
		c.StrokeLine2(paper.Line(0.4, paper.Faint), trX(float64(i)-0.5), c.Min.Y, trX(float64(i)-0.5), c.Max.Y)
	}
	c.StrokeLine2(paper.Line(1, paper.Ink), c.Min.X, trY(0), c.Max.X, trY(0))
	for _, y := range []float64{-g.Service, g.Service} {
		c.StrokeLine2(paper.Line(1.3, paper.Soft, vg.Points(6), vg.Points(3)), c.Min.X, trY(y), c.Max.X, trY(y))
	}
}

// hatch rules a column at 45°.
func hatch(c draw.Canvas, x0, x1 vg.Length) {
	column := draw.Canvas{Canvas: c.Canvas, Rectangle: vg.Rectangle{Min: vg.Point{X: x0, Y: c.Min.Y}, Max: vg.Point{X: x1, Y: c.Max.Y}}}
	height := c.Max.Y - c.Min.Y
	for x := x0 - height; x < x1; x += vg.Points(7) {
		rule := []vg.Point{{X: x, Y: c.Min.Y}, {X: x + height, Y: c.Max.Y}}
		c.StrokeLines(paper.Line(0.5, paper.Faint), column.ClipLinesXY(rule)...)
	}
}

// marks draws the firings and the means.
type marks struct {
	Figure
	note draw.TextStyle // aligned at its middle
}

func (m marks) Plot(c draw.Canvas, p *plot.Plot) {
	trX, trY := p.Transforms(&c)
	at := func(dev float64) vg.Length { return trY(min(max(dev, m.Low), m.High)) }
	half := min(vg.Points(8), (trX(1)-trX(0))*0.11)
	for i, col := range m.Columns {
		if m.paired() {
			m.drawPair(c, trX, float64(i), col, at)
			continue
		}
		if col.Mean != nil {
			drawMean(c, trX(float64(i)+meanAt), half, *col.Mean, col.Judged(), at)
		}
		m.drawColumn(c, col, func(j int) vg.Length { return trX(float64(i) + slot(j, len(col.Points))) }, at)
	}
}

// drawColumn draws the firings of one speed; those outside the chart are arrows. Words are
// drawn first, so that they hide no firing.
func (m marks) drawColumn(c draw.Canvas, col Column, x func(int) vg.Length, at func(float64) vg.Length) {
	exits := make(map[exit][]vg.Point)
	var early, woken []vg.Point
	for j, pt := range col.Points {
		where := vg.Point{X: x(j), Y: at(pt.Deviation)}
		switch {
		case !m.inside(pt):
			e := m.exitOf(pt)
			if pt.Hung {
				where.Y = c.Max.Y - vg.Points(1)
			}
			exits[e] = append(exits[e], where)
			if pt.Woke {
				woken = append(woken, vg.Point{X: where.X, Y: where.Y - e.head()})
			}
		case pt.Early:
			early = append(early, where)
		}
	}
	m.nameEarly(c, early)
	m.drawExits(c, exits)
	for _, where := range woken {
		drawRing(c, where)
	}
	for j, pt := range col.Points {
		if m.inside(pt) {
			drawFiring(c, vg.Point{X: x(j), Y: at(pt.Deviation)}, pt)
		}
	}
}

// drawMean draws a bar of two halves at the mean, with the range of its U95; dashed if the speed
// is not judged. A median is a double bar without a range.
func drawMean(c draw.Canvas, x, half vg.Length, m Mean, judged bool, at func(float64) vg.Length) {
	bar, whisker := paper.Line(3, paper.Mid), paper.Line(1.4, paper.Mid)
	if !judged {
		bar.Dashes, whisker.Dashes = []vg.Length{vg.Points(3), vg.Points(2)}, []vg.Length{vg.Points(2), vg.Points(2)}
	}
	y := at(m.Deviation)
	if m.Median {
		bar.Width = vg.Points(1.4)
		c.StrokeLine2(bar, x-half, y+vg.Points(1.6), x+half, y+vg.Points(1.6))
		c.StrokeLine2(bar, x-half, y-vg.Points(1.6), x+half, y-vg.Points(1.6))
		return
	}
	low, high := at(m.Deviation-m.U95), at(m.Deviation+m.U95)
	c.StrokeLine2(whisker, x, low, x, high)
	c.StrokeLine2(paper.Line(1.4, paper.Mid), x-half/2, low, x+half/2, low)
	c.StrokeLine2(paper.Line(1.4, paper.Mid), x-half/2, high, x+half/2, high)
	c.StrokeLine2(bar, x-half, y, x+half, y)
}
