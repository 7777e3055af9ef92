package chart

import (
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Around the sound of a panel, in points.
const (
	captionHeight = 10
	flagSize      = 6 // of the marks of opening and closing, above and below
	noteHeight    = 9
	noteSize      = 7.5
	leavingAbove  = 7 // the foot of a panel: the arrow out of it
)

// panelExtra is what a panel is higher than its sound.
const panelExtra = captionHeight + 2*flagSize + 1

// drawPanel draws a panel with its caption into the rectangle of the canvas; notes
// come below it.
func (l letters) drawPanel(c draw.Canvas, p Panel, s scale) {
	l.captionPanel(c, p)
	box := draw.Crop(c, 0, 0, flagSize+1, -captionHeight-flagSize)
	x := func(t float64) vg.Length {
		part := (t - p.From) / (p.To - p.From)
		return box.Min.X + (box.Max.X-box.Min.X)*vg.Length(min(max(part, 0), 1))
	}
	box.FillPolygon(band, rectangle(x(p.Open), x(p.Close), box.Min.Y, box.Max.Y))
	shows := func(t float64) bool { return t >= p.From && t < p.To }
	if shows(p.Open) {
		drawOpening(box, x(p.Open), p.Judged)
	}
	if shows(p.Close) {
		drawClosing(box, x(p.Close), p.Judged)
	}
	drawSound(box, p, s)
	frame := line(0.6, soft)
	if p.Doubtful {
		frame = line(0.9, ink, vg.Points(2), vg.Points(2))
	}
	box.StrokeLines(frame, append(rectangle(box.Min.X, box.Max.X, box.Min.Y, box.Max.Y), box.Min))
	if p.leaves() {
		drawLeaving(box)
	}
}

func (l letters) captionPanel(c draw.Canvas, p Panel) {
	sty, strong := aligned(l.style(8, soft), 0, 0), bold(aligned(l.style(8, ink), 0, 0))
	y := c.Max.Y - vg.Points(captionHeight-2)
	c.FillText(strong, vg.Point{X: c.Min.X, Y: y}, p.Number)
	c.FillText(aligned(strong, -1, 0), vg.Point{X: c.Max.X, Y: y}, p.Time)
	x := c.Min.X + strong.Width(p.Number) + vg.Points(5)
	room := c.Max.X - x - strong.Width(p.Time) - vg.Points(4)
	sty = l.shrink(sty, 6, room, p.Caption)
	c.FillText(sty, vg.Point{X: x, Y: y}, l.fit(sty, room, p.Caption))
}

// drawSound draws the level about the middle line, and over it the waveform; of others the
// level alone, as a line above.
func drawSound(box draw.Canvas, p Panel, s scale) {
	n := len(p.columns)
	if n == 0 {
		return
	}
	middle, half := (box.Min.Y+box.Max.Y)/2, (box.Max.Y-box.Min.Y)/2
	at := func(i int, part float64) vg.Point {
		x := box.Min.X + (box.Max.X-box.Min.X)*vg.Length((float64(i)+0.5)/float64(n))
		return vg.Point{X: x, Y: middle + half*vg.Length(part)}
	}
	level, swing := make([]vg.Point, 2*n), make([]vg.Point, 2*n)
	for i, col := range p.columns {
		level[i], level[2*n-1-i] = at(i, s.level(col.Level)), at(i, -s.level(col.Level))
		swing[i], swing[2*n-1-i] = at(i, s.swing(col.Max)), at(i, s.swing(col.Min))
	}
	box.FillPolygon(haze, level)
	box.FillPolygon(mid, swing)
	box.StrokeLines(line(0.3, mid), swing)
	for _, other := range p.others {
		edge := make([]vg.Point, len(other))
		for i, col := range other {
			edge[i] = at(i, s.level(col.Level))
		}
		box.StrokeLines(line(0.5, soft), edge)
	}
}

// drawOpening marks an opening: a line, with a triangle above that points at it.
func drawOpening(box draw.Canvas, x vg.Length, filled bool) {
	box.StrokeLine2(line(0.7, ink), x, box.Min.Y, x, box.Max.Y)
	drawFlag(box, vg.Point{X: x, Y: box.Max.Y}, vg.Points(flagSize), filled)
}

// drawClosing marks a closing: a line, with a triangle below that points at it.
func drawClosing(box draw.Canvas, x vg.Length, filled bool) {
	box.StrokeLine2(line(0.7, ink), x, box.Min.Y, x, box.Max.Y)
	drawFlag(box, vg.Point{X: x, Y: box.Min.Y}, -vg.Points(flagSize), filled)
}

// drawFlag draws a triangle with its tip at a place, above it for a positive height.
func drawFlag(c draw.Canvas, tip vg.Point, height vg.Length, filled bool) {
	half := vg.Points(flagSize * 0.55)
	drawShape(c, polygon(tip, vg.Point{X: tip.X - half, Y: tip.Y + height}, vg.Point{X: tip.X + half, Y: tip.Y + height}), filled, 0.8)
}

// drawLeaving draws an arrow out of a panel whose firing goes on beyond it.
func drawLeaving(box draw.Canvas) {
	const long = 7
	y := box.Min.Y + vg.Points(leavingAbove)
	tip := vg.Point{X: box.Max.X + vg.Points(4), Y: y}
	box.StrokeLine2(line(2, ink), tip.X-vg.Points(3*long), y, tip.X-vg.Points(long), y)
	box.SetColor(ink)
	box.Fill(polygon(tip, vg.Point{X: tip.X - vg.Points(long), Y: y + vg.Points(long*0.6)}, vg.Point{X: tip.X - vg.Points(long), Y: y - vg.Points(long*0.6)}))
}
