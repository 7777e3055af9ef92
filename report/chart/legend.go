package chart

import (
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"earshot/report/chart/paper"
)

// legendRows names the marks that are in the chart, in rows that fit the page.
func (p page) legendRows() [][]paper.Entry { return p.InRows(p.legend(), p.c.Max.X-p.c.Min.X) }

// drawLegend draws the rows below one another, the middle of the first at y.
func (p page) drawLegend(y vg.Length) {
	p.DrawEntries(p.c, vg.Point{X: p.c.Min.X, Y: y}, p.legendRows())
}

// legend has an entry for each kind of mark that is drawn, and for no other.
func (f Figure) legend() []paper.Entry {
	if f.paired() {
		return f.pairLegend()
	}
	var out []paper.Entry
	add := func(name string, width float64, draw func(draw.Canvas, vg.Point)) {
		out = append(out, paper.Entry{Name: name, Width: width, Draw: draw})
	}
	names := map[bool]string{true: "first firing", false: "later firings"}
	if pt, ok := f.woken(); ok {
		add(f.Woke, 11, drawPoint(pt))
		names[true] = "first at its speed"
	}
	for _, first := range []bool{true, false} {
		if pt, ok := f.sample(func(pt Point) bool { return pt.First == first && !pt.Woke }); ok {
			add(names[first], 9, drawPoint(pt))
		}
	}
	if pt, ok := f.sample(func(pt Point) bool { return !pt.Judged }); ok {
		add("hollow: not judged", 9, drawPoint(pt))
	}
	if f.anyMean(func(m Mean) bool { return !m.Median && m.U95 > 0 }) {
		add("mean, 95 % sure within the bar", 13, f.drawSample(Mean{U95: 1}))
	} else if f.anyMean(func(m Mean) bool { return !m.Median }) {
		add("mean", 13, f.drawSample(Mean{}))
	}
	if f.anyMean(func(m Mean) bool { return m.Median }) {
		add("median, where a mean would mislead", 13, f.drawSample(Mean{Median: true}))
	}
	if slices.ContainsFunc(f.Columns, func(c Column) bool { return c.Assumed }) {
		add("speed assumed, not told", 12, drawHatchSample)
	}
	return out
}

// woken is the first firing after a rest, wherever it is drawn.
func (f Figure) woken() (Point, bool) {
	for _, c := range f.Columns {
		if k := slices.IndexFunc(c.Points, func(pt Point) bool { return pt.Woke }); k >= 0 {
			return c.Points[k], true
		}
	}
	return Point{}, false
}

// sample is a firing to show in the legend: a judged one if there is one, or else one that is
// not the first at its speed, since most firings are not.
func (f Figure) sample(is func(Point) bool) (sample Point, ok bool) {
	for _, c := range f.Columns {
		for _, pt := range c.Points {
			if f.inside(pt) && is(pt) && (!ok || pt.Judged && !sample.Judged || pt.Judged == sample.Judged && !pt.First) {
				sample, ok = pt, true
			}
		}
	}
	return sample, ok
}

func drawPoint(pt Point) func(draw.Canvas, vg.Point) {
	return func(c draw.Canvas, at vg.Point) { drawFiring(c, at, pt) }
}

// drawSample draws a mean as in the chart, that of a judged speed if there is one.
func (f Figure) drawSample(m Mean) func(draw.Canvas, vg.Point) {
	judged := slices.ContainsFunc(f.Columns, func(c Column) bool { return c.Mean != nil && c.Mean.Median == m.Median && c.Judged() })
	return func(c draw.Canvas, at vg.Point) {
		drawMean(c, at.X+vg.Points(2), vg.Points(8), m, judged, func(dev float64) vg.Length { return at.Y + vg.Points(6*dev) })
	}
}

func drawHatchSample(c draw.Canvas, at vg.Point) {
	half := vg.Points(6)
	box := draw.Canvas{Canvas: c.Canvas, Rectangle: vg.Rectangle{
		Min: vg.Point{X: at.X - half, Y: at.Y - half}, Max: vg.Point{X: at.X + half, Y: at.Y + half}}}
	hatch(box, box.Min.X, box.Max.X)
	c.StrokeLines(paper.Line(0.5, paper.Faint), append(paper.Rectangle(box.Min.X, box.Max.X, box.Min.Y, box.Max.Y), box.Min))
}

func (f Figure) anyMean(is func(Mean) bool) bool {
	return slices.ContainsFunc(f.Columns, func(c Column) bool { return c.Mean != nil && is(*c.Mean) })
}
