package paper

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Label writes text on a patch of paper, where there may be lines beneath.
func Label(c draw.Canvas, sty draw.TextStyle, at vg.Point, txt string) {
	half := sty.Width(txt)/2 + vg.Points(2)
	c.FillPolygon(Blank, Rectangle(at.X-half, at.X+half, at.Y-vg.Points(2), at.Y+vg.Points(9)))
	c.FillText(Aligned(sty, -0.5, 0), at, txt)
}

// Shades, told apart in grey: blank, band, faint, haze, mid, ink from light to dark.
var (
	Blank = color.Gray{Y: 0xFF}
	Band  = color.RGBA{R: 0xDD, G: 0xE7, B: 0xEC, A: 0xFF}
	Faint = color.Gray{Y: 0xC4}
	Haze  = color.RGBA{R: 0x9C, G: 0xB4, B: 0xC2, A: 0xFF}
	Soft  = color.Gray{Y: 0x55}
	Mid   = color.RGBA{R: 0x2B, G: 0x74, B: 0x9B, A: 0xFF}
	Ink   = color.RGBA{R: 0x14, G: 0x1E, B: 0x2A, A: 0xFF}
)

// Line is a line so wide, in points, whole or in dashes.
func Line(width float64, clr color.Color, dashes ...vg.Length) draw.LineStyle {
	return draw.LineStyle{Color: clr, Width: vg.Points(width), Dashes: dashes}
}

// Rectangle is the corners of one, in order.
func Rectangle(x0, x1, y0, y1 vg.Length) []vg.Point {
	return []vg.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
}

// DrawShape draws a shape filled or hollow, with an outline so wide, pt.
func DrawShape(c draw.Canvas, shape vg.Path, filled bool, outline float64) {
	c.SetColor(Blank)
	if filled {
		c.SetColor(Ink)
	}
	c.Fill(shape)
	c.SetLineStyle(Line(outline, Ink))
	c.Stroke(shape)
}

// Disc is a circle of a radius about a place.
func Disc(at vg.Point, r vg.Length) vg.Path {
	var p vg.Path
	p.Move(vg.Point{X: at.X + r, Y: at.Y})
	p.Arc(at, r, 0, 2*math.Pi)
	p.Close()
	return p
}

// Polygon is a closed path through corners.
func Polygon(pts ...vg.Point) vg.Path {
	var p vg.Path
	p.Move(pts[0])
	for _, pt := range pts[1:] {
		p.Line(pt)
	}
	p.Close()
	return p
}

// ArrowHead is a head with its tip at a place, up for a positive size, down for a negative.
func ArrowHead(tip vg.Point, size vg.Length) vg.Path {
	half, foot := max(size, -size)/2, tip.Y-size
	return Polygon(tip, vg.Point{X: tip.X - half, Y: foot}, vg.Point{X: tip.X + half, Y: foot})
}
