package chart

import (
	"fmt"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// firingsPage is one page of the pictures of firings.
type firingsPage struct {
	Firings
	letters
	rows   []row
	number int // from 0
}

func (p firingsPage) size() (width, height vg.Length) {
	h := 2*margin + p.headHeight() + firingsFoot
	for _, r := range p.rows {
		h += r.height()
	}
	return pageWidth, vg.Points(h)
}

// headHeight is what stands above the strips, in points.
func (p firingsPage) headHeight() float64 {
	return firingsHead + legendRow*float64(max(0, len(p.legendRows())-1))
}

func panelWidth(columns int) vg.Length {
	return (pageWidth - 2*margin - columnGap*vg.Length(columns-1)) / vg.Length(columns)
}

func (p firingsPage) draw(c draw.Canvas) {
	c.SetColor(paper)
	c.Fill(c.Rectangle.Path())
	c = draw.Crop(c, margin, -margin, margin, -margin)
	p.drawHead(c)
	y := c.Max.Y - vg.Points(p.headHeight())
	for _, r := range p.rows {
		p.drawRow(draw.Crop(c, 0, 0, 0, y-c.Max.Y), r)
		y -= vg.Points(r.height())
	}
	sty := aligned(p.style(8, soft), 0, 0)
	if len(p.rows) == 0 {
		c.FillText(aligned(p.style(13, ink), -0.5, 0), vg.Point{X: c.Center().X, Y: y - vg.Points(8)}, "no firing was heard")
	}
	for i, l := range slices.Backward(p.foot()) {
		c.FillText(sty, vg.Point{X: c.Min.X, Y: c.Min.Y + vg.Points(10*float64(len(p.foot())-1-i))}, p.fit(sty, c.Max.X-c.Min.X, l))
	}
}

func (p firingsPage) foot() []string {
	return []string{p.Recordings, "Sound above 500 Hz. The panels of a speed have one scale of time and of loudness; a sound louder than usual is cut off."}
}

func (p firingsPage) drawHead(c draw.Canvas) {
	title, date := bold(aligned(p.style(15, ink), 0, 0)), aligned(p.style(10, ink), -1, -1)
	plain := aligned(p.style(10, ink), 0, -1)
	top, width := c.Max.Y, c.Max.X-c.Min.X
	room := width - date.Width(p.Date) - vg.Points(12)
	title = p.shrink(title, 11, room, p.Title+p.Number)
	c.FillText(title, vg.Point{X: c.Min.X, Y: top - vg.Points(13)}, p.fit(title, room-title.Width(p.legible(p.Number)), p.Title)+p.fit(title, room/3, p.Number))
	c.FillText(date, vg.Point{X: c.Max.X, Y: top - vg.Points(3)}, p.Date)
	words := p.Counts + ". Each panel is the sound of one firing, aligned at the opening."
	if p.Pages() > 1 {
		words += fmt.Sprintf(" Picture %d of %d.", p.number+1, p.Pages())
	}
	c.FillText(plain, vg.Point{X: c.Min.X, Y: top - vg.Points(20)}, p.fit(plain, width, words))
	p.drawEntries(c, vg.Point{X: c.Min.X, Y: top - vg.Points(42)}, p.legendRows())
}

func (p firingsPage) drawRow(c draw.Canvas, r row) {
	y := c.Max.Y
	if r.first {
		p.drawStripTitle(c, r)
		y -= vg.Points(titleHeight)
	}
	width := panelWidth(r.strip.columns())
	note := aligned(p.style(noteSize, ink), 0, -1)
	for i, panel := range r.panels {
		x := c.Min.X + (width+columnGap)*vg.Length(i)
		foot := y - vg.Points(panelExtra+soundHeight)
		p.drawPanel(draw.Canvas{Canvas: c.Canvas, Rectangle: vg.Rectangle{Min: vg.Point{X: x, Y: foot}, Max: vg.Point{X: x + width, Y: y}}}, panel, r.strip.scale)
		for _, l := range panel.lines {
			c.FillText(note, vg.Point{X: x, Y: foot}, l)
			foot -= noteHeight
		}
	}
}

// drawStripTitle names a strip, with a bar at the right for its scale of time.
func (p firingsPage) drawStripTitle(c draw.Canvas, r row) {
	words := r.strip.Detail
	if r.continued {
		words = "continued"
	}
	x, room := p.titleRule(c, c.Max.Y, r.strip.Title, r.strip.span(), panelWidth(r.strip.columns()))
	plain := aligned(p.style(9, ink), 0, 0)
	c.FillText(plain, vg.Point{X: x, Y: c.Max.Y - vg.Points(13)}, p.fit(plain, room, words))
}

// titleRule draws a rule with a title below it, and at the right a bar for the scale of time of
// panels so wide that show span s. It returns where there is room for more words, and
// how much.
func (l letters) titleRule(c draw.Canvas, top vg.Length, title string, span float64, width vg.Length) (x, room vg.Length) {
	strong, plain := bold(aligned(l.style(11, ink), 0, 0)), aligned(l.style(9, ink), 0, 0)
	c.StrokeLine2(line(0.5, faint), c.Min.X, top-vg.Points(2), c.Max.X, top-vg.Points(2))
	y := top - vg.Points(13)
	title = l.legible(title)
	c.FillText(strong, vg.Point{X: c.Min.X, Y: y}, title)
	long, name := scaleBar(span)
	bar := width * vg.Length(long/span)
	drawScaleBar(c, vg.Point{X: c.Max.X, Y: y + vg.Points(3)}, bar)
	c.FillText(aligned(plain, -1, 0), vg.Point{X: c.Max.X - bar - vg.Points(4), Y: y}, name)
	x = c.Min.X + strong.Width(title) + vg.Points(10)
	return x, c.Max.X - bar - vg.Points(16) - plain.Width(name) - x
}

// drawScaleBar draws a bar of a length that ends at a place.
func drawScaleBar(c draw.Canvas, end vg.Point, long vg.Length) {
	c.StrokeLine2(line(1.4, ink), end.X-long, end.Y, end.X, end.Y)
	for _, x := range []vg.Length{end.X - long, end.X} {
		c.StrokeLine2(line(1, ink), x, end.Y-vg.Points(3), x, end.Y+vg.Points(3))
	}
}
