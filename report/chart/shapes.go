package chart

import (
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"earshot/report/chart/paper"
)

// drawFiring draws a diamond for the first firing and a disc for later ones, hollow
// where the firing is not judged, with a ring around the first after a rest.
func drawFiring(c draw.Canvas, at vg.Point, p Point) {
	shape := paper.Disc(at, vg.Points(3.3))
	if p.First {
		shape = diamond(at, vg.Points(5))
	}
	paper.DrawShape(c, shape, p.Judged, 1.2)
	if p.Woke {
		drawRing(c, at)
	}
}

func drawRing(c draw.Canvas, at vg.Point) {
	c.SetLineStyle(paper.Line(1.2, paper.Ink))
	c.Stroke(paper.Disc(at, vg.Points(7.5)))
}

func diamond(at vg.Point, r vg.Length) vg.Path {
	return paper.Polygon(vg.Point{X: at.X, Y: at.Y + r}, vg.Point{X: at.X + r, Y: at.Y}, vg.Point{X: at.X, Y: at.Y - r}, vg.Point{X: at.X - r, Y: at.Y})
}
