package chart

import (
	"fmt"
	"io"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"earshot/report"
	"earshot/report/chart/paper"
	"earshot/report/words"
)

// WriteComparison draws the means of two sittings side by side, with an arrow from the earlier
// to the later if the change is real.
func WriteComparison(w io.Writer, c report.Comparison, f paper.Format) error {
	return write(w, f, func() (Figure, paperwork) {
		chart := NewComparison(c)
		caption := fmt.Sprintf("%s. %s", c.Heading(), c.Sum)
		return chart, paperwork{c.After.Made, c.Tool.Version, []string{caption}}
	})
}

// NewComparison computes what the chart of a comparison shows. It has the limits of the later
// sitting.
func NewComparison(c report.Comparison) Figure {
	name, number := report.Document{Lens: c.After.Lens}.Title()
	f := Figure{
		Title: name, Number: number, Date: words.Date(c.Before.Made) + " and " + words.Date(c.After.Made),
		Was: words.Date(c.Before.Made), Now: words.Date(c.After.Made),
		Verdict:  fmt.Sprintf("Shutter: %s before, %s after", c.Before.Verdict, c.After.Verdict),
		Findings: append(c.Findings(), c.Warnings...),
		Footer:   []string{comparedBy(c), words.NotTested},
		Good:     c.After.Policy.Good, Service: c.After.Policy.Service,
		Rows: []string{"before, stops", "after, stops", "change, stops", "verdict after"},
	}
	for _, p := range c.Speeds {
		f.Columns = append(f.Columns, newPair(p))
	}
	f.Low, f.High = axisRange(f)
	return f
}

func comparedBy(c report.Comparison) string {
	setUp := "Two set-ups."
	if c.SameSet {
		setUp = "The same set-up both times, as told."
	}
	return fmt.Sprintf("%s A change is called real from 1/6 stop on, where the uncertainty does not explain it. Compared by %s.",
		setUp, strings.TrimSpace("earshot "+c.Tool.Version))
}

func newPair(p report.SpeedChange) Column {
	c := Column{Marked: words.Mark(p.Marked), Changed: p.Real, Cells: []string{"-", "-", "-"}}
	c.Before, c.Cells[0] = meanFound(p.Before)
	c.Mean, c.Cells[1] = meanFound(p.After)
	if p.Change != nil {
		c.Cells[2] = words.Signed(*p.Change)
	}
	if p.After != nil {
		c.Verdict = p.After.Verdict
	}
	return c
}

func meanFound(f *report.Found) (*Mean, string) {
	if f == nil || f.Deviation == nil {
		return nil, f.WhyNoMean()
	}
	m := &Mean{Deviation: *f.Deviation}
	if f.U95 != nil {
		m.U95 = *f.U95
	}
	return m, words.Signed(m.Deviation)
}

func (f Figure) paired() bool { return f.Was != "" }

// drawPair draws the mean before, hollow, and after, full, in one column.
func (m marks) drawPair(c draw.Canvas, trX func(float64) vg.Length, column float64, col Column, at func(float64) vg.Length) {
	before, after := trX(column+beforeAt), trX(column+afterAt)
	if col.Before != nil && col.Mean != nil && col.Changed {
		drawChange(c, vg.Point{X: before, Y: at(col.Before.Deviation)}, vg.Point{X: after, Y: at(col.Mean.Deviation)})
	}
	if col.Before != nil {
		drawSitting(c, before, *col.Before, false, at)
	}
	if col.Mean != nil {
		drawSitting(c, after, *col.Mean, true, at)
	}
}

// drawSitting draws a mean as a square in its range, a full one for the later sitting.
func drawSitting(c draw.Canvas, x vg.Length, m Mean, later bool, at func(float64) vg.Length) {
	low, high, half := at(m.Deviation-m.U95), at(m.Deviation+m.U95), vg.Points(4)
	whisker := paper.Line(1.4, paper.Mid)
	c.StrokeLine2(whisker, x, low, x, high)
	c.StrokeLine2(whisker, x-half, low, x+half, low)
	c.StrokeLine2(whisker, x-half, high, x+half, high)
	y := at(m.Deviation)
	paper.DrawShape(c, paper.Polygon(paper.Rectangle(x-half, x+half, y-half, y+half)...), later, 1.2)
}

// drawChange draws an arrow that ends short of the square it points to.
func drawChange(c draw.Canvas, from, to vg.Point) {
	const short = 8
	drop := vg.Points(short)
	if to.Y > from.Y {
		drop = -drop
	}
	foot := vg.Point{X: to.X, Y: to.Y + drop}
	c.StrokeLine2(paper.Line(1.2, paper.Soft), from.X, from.Y, to.X, from.Y)
	c.StrokeLine2(paper.Line(1.2, paper.Soft), to.X, from.Y, foot.X, foot.Y)
	c.SetColor(paper.Soft)
	c.Fill(paper.ArrowHead(vg.Point{X: to.X, Y: to.Y + drop*3/4}, -drop))
}

func (f Figure) pairLegend() []paper.Entry {
	square := func(later bool) func(draw.Canvas, vg.Point) {
		return func(c draw.Canvas, at vg.Point) {
			drawSitting(c, at.X, Mean{U95: 1}, later, func(dev float64) vg.Length { return at.Y + vg.Points(6*dev) })
		}
	}
	out := []paper.Entry{{Name: "before, " + f.Was, Width: 9, Draw: square(false)}, {Name: "after, " + f.Now, Width: 9, Draw: square(true)}}
	sure := paper.Entry{Name: "bar: the mean is 95 % sure within", Draw: func(draw.Canvas, vg.Point) {}}
	for _, col := range f.Columns {
		if col.Changed {
			return append(out, paper.Entry{Name: "a real change", Width: 12, Draw: drawChangeSample}, sure)
		}
	}
	return append(out, sure)
}

func drawChangeSample(c draw.Canvas, at vg.Point) {
	c.StrokeLine2(paper.Line(1.2, paper.Soft), at.X, at.Y+vg.Points(5), at.X, at.Y)
	c.SetColor(paper.Soft)
	c.Fill(paper.ArrowHead(vg.Point{X: at.X, Y: at.Y - vg.Points(6)}, vg.Points(-8)))
}
