package chart

import (
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// drawFiring draws a diamond for the first firing and a disc for later ones, hollow
// where the firing is not judged, with a ring around the first after a rest.
func drawFiring(c draw.Canvas, at vg.Point, p Point) {
	shape := disc(at, vg.Points(3.3))
	if p.First {
		shape = diamond(at, vg.Points(5))
	}
	drawShape(c, shape, p.Judged, 1.2)
	if p.Woke {
		drawRing(c, at)
	}
}

func drawRing(c draw.Canvas, at vg.Point) {
	c.SetLineStyle(line(1.2, ink))
	c.Stroke(disc(at, vg.Points(7.5)))
}

// drawShape draws a shape filled or hollow, with an outline so wide, pt.
func drawShape(c draw.Canvas, shape vg.Path, filled bool, outline float64) {
	c.SetColor(paper)
	if filled {
		c.SetColor(ink)
	}
	c.Fill(shape)
	c.SetLineStyle(line(outline, ink))
	c.Stroke(shape)
}

func disc(at vg.Point, r vg.Length) vg.Path {
	var p vg.Path
	p.Move(vg.Point{X: at.X + r, Y: at.Y})
	p.Arc(at, r, 0, 2*math.Pi)
	p.Close()
	return p
}

func diamond(at vg.Point, r vg.Length) vg.Path {
	return polygon(vg.Point{X: at.X, Y: at.Y + r}, vg.Point{X: at.X + r, Y: at.Y}, vg.Point{X: at.X, Y: at.Y - r}, vg.Point{X: at.X - r, Y: at.Y})
}

func polygon(pts ...vg.Point) vg.Path {
	var p vg.Path
	p.Move(pts[0])
	for _, pt := range pts[1:] {
		p.Line(pt)
	}
	p.Close()
	return p
}

func arrowHead(tip vg.Point, size vg.Length) vg.Path {
	half, foot := max(size, -size)/2, tip.Y-size
	return polygon(tip, vg.Point{X: tip.X - half, Y: foot}, vg.Point{X: tip.X + half, Y: foot})
}
