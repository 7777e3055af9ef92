package chart

import (
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"earshot/report/chart/paper"
	"earshot/report/words"
)

// The page is 560 px high at 96 dpi.
const (
	pageHeight              = 420
	leftColumn, rightColumn = 78, 84 // beside the plotted area
	footHeight              = 106
	bareHeight, bareFoot    = 300, 18 // of a page that names no more than the speeds
)

// height is that of the page.
func (f Figure) height() vg.Length {
	if f.Bare {
		return bareHeight
	}
	return pageHeight
}

// page lays a figure out on paper.
type page struct {
	Figure
	paper.Letters
	c draw.Canvas
}

func (f Figure) size() (width, height vg.Length) { return paper.PageWidth, f.height() }

// draw draws the figure on a canvas of pageWidth by its height.
func (f Figure) draw(c draw.Canvas) {
	c.SetColor(paper.Blank)
	c.Fill(c.Rectangle.Path())
	p := page{Figure: f, Letters: paper.NewLetters(), c: draw.Crop(c, paper.Margin, -paper.Margin, paper.Margin, -paper.Margin)}
	if f.Bare {
		p.drawLegend(p.c.Max.Y - vg.Points(6))
		p.drawPlot(draw.Crop(p.c, leftColumn-24, -rightColumn, bareFoot, -vg.Points(6)-p.legendHeight()))
		return
	}
	head := p.drawHead()
	p.drawFooter()
	p.drawPlot(draw.Crop(p.c, leftColumn-24, -rightColumn, footHeight, -head))
}

func (p page) drawPlot(area draw.Canvas) {
	pl := p.newPlot()
	pl.Draw(area)
	inner := pl.DataCanvas(area)
	trX, trY := pl.Transforms(&inner)
	p.nameLimits(inner.Max.X+vg.Points(6), trY)
	p.nameDirections(inner, trY(0))
	if len(p.Columns) == 0 {
		sty := paper.Aligned(p.Style(13, paper.Ink), -0.5, 0.5)
		p.c.FillText(sty, inner.Center(), "no firing at a known speed")
		return
	}
	p.drawTable(inner, trX)
}

func (p page) newPlot() *plot.Plot {
	pl := plot.New()
	pl.TextHandler = p.Style(9, paper.Ink).Handler
	empty := max(0, 3-float64(len(p.Columns))) / 2
	pl.X.Min, pl.X.Max = -0.5-empty, float64(len(p.Columns))-0.5+empty
	pl.HideX()
	pl.Y.Min, pl.Y.Max = p.Low, p.High
	pl.Y.Padding = 0
	pl.Y.LineStyle = paper.Line(0.6, paper.Soft)
	pl.Y.Tick.LineStyle = paper.Line(0.6, paper.Soft)
	pl.Y.Tick.Length = vg.Points(4)
	pl.Y.Tick.Label = paper.Aligned(p.Style(9, paper.Ink), -1, -0.4)
	pl.Y.Tick.Marker = ticks(p.Low, p.High)
	pl.Add(ground{p.Figure}, marks{p.Figure, p.Style(9, paper.Ink)})
	return pl
}

// nameLimits says at the right of the plotted area what band and lines mean.
func (p page) nameLimits(x vg.Length, trY func(float64) vg.Length) {
	sty := p.Style(9, paper.Ink)
	two := func(y vg.Length, first, second string) {
		p.c.FillText(paper.Aligned(sty, 0, 0), vg.Point{X: x, Y: y + vg.Points(2)}, first)
		p.c.FillText(paper.Aligned(sty, 0, -1), vg.Point{X: x, Y: y + vg.Points(1)}, second)
	}
	two(trY(0), "good within", "±"+words.Stops(p.Good))
	p.c.FillText(paper.Aligned(sty, 0, 0), vg.Point{X: x, Y: trY(p.Service) + vg.Points(12)}, "service beyond")
	p.c.FillText(paper.Aligned(sty, 0, 0), vg.Point{X: x, Y: trY(p.Service) + vg.Points(2)}, words.Stops(p.Service)+" slow")
	p.c.FillText(paper.Aligned(sty, 0, -1), vg.Point{X: x, Y: trY(-p.Service) + vg.Points(1)}, "service beyond")
	p.c.FillText(paper.Aligned(sty, 0, -1), vg.Point{X: x, Y: trY(-p.Service) - vg.Points(9)}, words.Stops(p.Service)+" fast")
}

// nameDirections says at the left what up and down mean.
func (p page) nameDirections(inner draw.Canvas, zero vg.Length) {
	sty, strong := p.Style(9, paper.Ink), paper.Bold(p.Style(9, paper.Ink))
	x := p.c.Min.X
	p.c.FillText(paper.Aligned(strong, 0, -1), vg.Point{X: x, Y: inner.Max.Y}, "↑ slow")
	p.c.FillText(paper.Aligned(sty, 0, -1), vg.Point{X: x, Y: inner.Max.Y - vg.Points(11)}, "more light")
	zero = min(max(zero, inner.Min.Y+vg.Points(42)), inner.Max.Y-vg.Points(42))
	p.c.FillText(paper.Aligned(sty, 0, 0), vg.Point{X: x, Y: zero + vg.Points(1)}, "stops off")
	p.c.FillText(paper.Aligned(sty, 0, -1), vg.Point{X: x, Y: zero}, "the mark")
	p.c.FillText(paper.Aligned(sty, 0, 0), vg.Point{X: x, Y: inner.Min.Y + vg.Points(12)}, "less light")
	p.c.FillText(paper.Aligned(strong, 0, 0), vg.Point{X: x, Y: inner.Min.Y + vg.Points(1)}, "↓ fast")
}
