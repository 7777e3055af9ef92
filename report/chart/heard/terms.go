package heard

import (
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"earshot/report/chart/paper"
)

// Sizes of the bars of evidence, in points.
const (
	termHeight    = 13
	termWords     = 340 // for its words,
	termFigure    = 36  // its figure,
	termGap       = 6   // and between that and the bars
	leastEvidence = 8.0 // for which the bars have room at least
)

// termBars is where the bars of evidence are drawn, and to what scale.
type termBars struct {
	zero, reach vg.Length // the middle, and how far to either side
	most        float64   // the evidence that reaches so far
}

func (p evidencePage) termBars(c draw.Canvas) termBars {
	left := c.Min.X + termWords + termFigure + termGap
	b := termBars{(left + c.Max.X) / 2, (c.Max.X - left) / 2, leastEvidence}
	for _, t := range p.terms {
		b.most = math.Max(b.most, math.Abs(t.Weight))
	}
	return b
}

// draw draws evidence as a bar on a line of text: to the right and filled for a firing, to
// the left and hollow against it.
func (b termBars) draw(c draw.Canvas, y vg.Length, weight float64) {
	const nothing = 0.05
	if math.Abs(weight) < nothing {
		return
	}
	x := b.zero + b.reach*vg.Length(weight/b.most)
	box := paper.Rectangle(min(x, b.zero), max(x, b.zero), y-vg.Points(1), y+vg.Points(7))
	if weight > 0 {
		c.FillPolygon(paper.Mid, box)
	}
	c.StrokeLines(paper.Line(0.8, paper.Ink), append(box, box[0]))
}

// drawTerms draws each piece of evidence in words, as a figure and as a bar, and their sum
// in bold.
func (p evidencePage) drawTerms(c draw.Canvas, y vg.Length) {
	if len(p.terms) == 0 {
		return
	}
	bars := p.termBars(c)
	plain := paper.Aligned(p.Style(8.5, paper.Ink), 0, 0)
	y -= termHeight
	top := y - vg.Points(3)
	c.FillText(paper.Bold(paper.Aligned(p.Style(9, paper.Ink), 0, 0)), vg.Point{X: c.Min.X, Y: y}, "What speaks for a firing, and what against (logarithm of odds; 3 is 20 to 1)")
	c.FillText(paper.Aligned(plain, -1, 0), vg.Point{X: bars.zero - vg.Points(4), Y: y}, "against")
	c.FillText(plain, vg.Point{X: bars.zero + vg.Points(4), Y: y}, "for")
	for i, t := range p.terms {
		y -= termHeight
		words, figure := plain, paper.Aligned(plain, -1, 0)
		if i == len(p.terms)-1 {
			words, figure = paper.Bold(words), paper.Bold(figure)
		}
		words = p.Shrink(words, 6.5, termWords, t.What)
		c.FillText(words, vg.Point{X: c.Min.X, Y: y}, p.Fit(words, termWords, t.What))
		c.FillText(figure, vg.Point{X: c.Min.X + termWords + termFigure, Y: y}, t.Words())
		bars.draw(c, y, t.Weight)
	}
	c.StrokeLine2(paper.Line(0.8, paper.Ink), bars.zero, y-vg.Points(3), bars.zero, top)
}
