package chart

import (
	"errors"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"earshot/report"
)

// stripPicture is a strip by itself.
type stripPicture struct {
	Strip
	letters
	width, height vg.Length
}

// DrawStrip draws firings of a document side by side, with opening and closing marked, to
// one scale of time and aligned at their openings: firings of one speed, then. The
// picture has a size in points of 1/72 inch, as PNG or SVG; 100 by 75 a firing and more
// is legible. It looks at their sound by look, whose error it returns, wrapped.
func DrawStrip(d report.Document, firings []int, look Look, width, height float64, format Format) ([]byte, error) {
	if len(firings) == 0 {
		return nil, errors.New("a strip of no firings can't be drawn")
	}
	p := stripPicture{newStrip(d, firings), newLetters(), vg.Points(width), vg.Points(height)}
	if err := p.look(d, look, p.each()); err != nil {
		return nil, err
	}
	return recovered(func() ([]byte, error) { return drawn(p, format) })
}

func (p stripPicture) size() (width, height vg.Length) { return p.width, p.height }

// each is the width of a panel.
func (p stripPicture) each() vg.Length {
	n := vg.Length(len(p.Panels))
	return (p.width - columnGap*n) / n
}

func (p stripPicture) draw(c draw.Canvas) {
	c.SetColor(paper)
	c.Fill(c.Rectangle.Path())
	for i, panel := range p.Panels {
		x := c.Min.X + columnGap/2 + (p.each()+columnGap)*vg.Length(i)
		p.drawPanel(part(c, x, p.each(), c.Min.Y+vg.Points(1), c.Max.Y-vg.Points(1)), panel, p.scale)
	}
}
