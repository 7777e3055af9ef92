package chart

import (
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"earshot/shutter"
)

// drawTable writes the figures of each speed under its column.
func (p page) drawTable(inner draw.Canvas, trX func(float64) vg.Length) {
	plain, strong := p.style(9, ink), bold(p.style(10, ink))
	row := func(n float64) vg.Length { return inner.Min.Y - vg.Points(5+11.5*n) }
	for i, name := range []string{"marked", "exact, ms", "measured, ms", "off, stops", "verdict"} {
		p.c.FillText(aligned(plain, 0, -1), vg.Point{X: p.c.Min.X, Y: row(float64(i))}, name)
	}
	width := (trX(1) - trX(0)) * 0.98
	for i, col := range p.Columns {
		x := trX(float64(i))
		cell := func(n float64, sty draw.TextStyle, txt string) {
			p.c.FillText(aligned(sty, -0.5, -1), vg.Point{X: x, Y: row(n)}, p.fit(sty, width, txt))
		}
		if col.Assumed {
			label(p.c, plain, vg.Point{X: x, Y: inner.Min.Y + vg.Points(4)}, "assumed")
		}
		cell(0, strong, col.Marked)
		cell(1, plain, col.Exact)
		cell(2, plain, col.Measured)
		cell(3, plain, col.Off)
		for j, word := range col.verdictLines() {
			cell(4+float64(j)*0.9, verdictStyle(col.Verdict, plain), word)
		}
	}
}

// label writes text on a patch of paper, where there may be lines beneath.
func label(c draw.Canvas, sty draw.TextStyle, at vg.Point, txt string) {
	half := sty.Width(txt)/2 + vg.Points(2)
	c.FillPolygon(paper, rectangle(at.X-half, at.X+half, at.Y-vg.Points(2), at.Y+vg.Points(9)))
	c.FillText(aligned(sty, -0.5, 0), at, txt)
}

// verdictLines breaks the verdict so that eight speeds fit side by side.
func (c Column) verdictLines() []string {
	lines := strings.Fields(c.Verdict.String())
	if !c.Judged() {
		lines = []string{c.Verdict.String()}
	}
	return lines
}

func verdictStyle(verdict shutter.Verdict, plain draw.TextStyle) draw.TextStyle {
	if verdict == shutter.ServiceAdvised {
		return bold(plain)
	}
	return plain
}

// drawLegend names the shapes that occur, from left to right.
func (p page) drawLegend(y vg.Length) {
	sty := aligned(p.style(9, ink), 0, -0.4)
	x := p.c.Min.X + vg.Points(5)
	for _, e := range p.legend() {
		e.draw(p.c, vg.Point{X: x, Y: y})
		p.c.FillText(sty, vg.Point{X: x + vg.Points(e.width), Y: y}, e.name)
		x += vg.Points(e.width+16) + sty.Width(e.name)
	}
}

type entry struct {
	name  string
	width float64 // from the middle of the shape to its name
	draw  func(draw.Canvas, vg.Point)
}

func (p page) legend() []entry {
	firing := func(pt Point) func(draw.Canvas, vg.Point) {
		return func(c draw.Canvas, at vg.Point) { drawFiring(c, at, pt) }
	}
	judged := p.any(func(pt Point) bool { return pt.Judged })
	all := []struct {
		occurs bool
		entry
	}{
		{p.any(func(pt Point) bool { return pt.First && !pt.Hung }), entry{"first firing", 9, firing(Point{First: true, Judged: judged})}},
		{p.any(func(pt Point) bool { return !pt.First && !pt.Hung }), entry{"later firings", 9, firing(Point{Judged: judged})}},
		{p.any(func(pt Point) bool { return !pt.Judged && !pt.Hung }), entry{"hollow: not judged", 9, firing(Point{})}},
		{p.anyMean(false), entry{"mean, 95 % sure within the bar", 13, drawSample(Mean{U95: 1})}},
		{p.anyMean(true), entry{"median, scatter too wide for a mean", 13, drawSample(Mean{Median: true})}},
		{p.anyAssumed(), entry{"speed assumed, not told", 12, drawHatchSample}},
	}
	var out []entry
	for _, e := range all {
		if e.occurs {
			out = append(out, e.entry)
		}
	}
	return out
}

func drawSample(m Mean) func(draw.Canvas, vg.Point) {
	return func(c draw.Canvas, at vg.Point) {
		drawMean(c, at.X+vg.Points(2), vg.Points(8), m, true, func(dev float64) vg.Length { return at.Y + vg.Points(6*dev) })
	}
}

func drawHatchSample(c draw.Canvas, at vg.Point) {
	half := vg.Points(6)
	box := draw.Canvas{Canvas: c.Canvas, Rectangle: vg.Rectangle{
		Min: vg.Point{X: at.X - half, Y: at.Y - half}, Max: vg.Point{X: at.X + half, Y: at.Y + half}}}
	hatch(box, box.Min.X, box.Max.X)
	c.StrokeLines(line(0.5, faint), append(rectangle(box.Min.X, box.Max.X, box.Min.Y, box.Max.Y), box.Min))
}

func (f Figure) anyMean(median bool) bool {
	for _, c := range f.Columns {
		if c.Mean != nil && c.Mean.Median == median {
			return true
		}
	}
	return false
}

func (f Figure) anyAssumed() bool {
	for _, c := range f.Columns {
		if c.Assumed {
			return true
		}
	}
	return false
}
