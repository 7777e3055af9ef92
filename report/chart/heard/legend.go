package heard

import (
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"earshot/dsp/describe"
	"earshot/report/chart/paper"
)

func (p firingsPage) legendRows() [][]paper.Entry {
	return p.InRows(p.legend(), paper.PageWidth-2*paper.Margin)
}

// legend has an entry for each kind of mark on the page, and for no other.
func (p firingsPage) legend() []paper.Entry {
	var out []paper.Entry
	add := func(name string, width float64, draw func(draw.Canvas, vg.Point)) {
		out = append(out, paper.Entry{Name: name, Width: width, Draw: draw})
	}
	if len(p.rows) == 0 {
		return nil
	}
	any := func(is func(Panel) bool) bool {
		for _, r := range p.rows {
			for _, panel := range r.panels {
				if is(panel) {
					return true
				}
			}
		}
		return false
	}
	judged := any(func(p Panel) bool { return p.Judged })
	add("opening", 9, func(c draw.Canvas, at vg.Point) { drawFlag(c, below(at), vg.Points(flagSize), judged) })
	add("closing", 9, func(c draw.Canvas, at vg.Point) { drawFlag(c, above(at), -vg.Points(flagSize), judged) })
	add("waveform", 20, drawSoundSample(true))
	add("level in dB, faint sounds too", 20, drawSoundSample(false))
	if any(func(p Panel) bool { return !p.Judged }) {
		add("hollow: not judged", 9, func(c draw.Canvas, at vg.Point) { drawFlag(c, below(at), vg.Points(flagSize), false) })
	}
	if any(func(p Panel) bool { return p.Doubtful }) {
		add("dashed: not counted", 14, drawDashedSample)
	}
	if any(Panel.leaves) {
		add("still open", 20, drawLeavingSample)
	}
	return out
}

func below(at vg.Point) vg.Point { return vg.Point{X: at.X, Y: at.Y - vg.Points(flagSize)/2} }

func above(at vg.Point) vg.Point { return vg.Point{X: at.X, Y: at.Y + vg.Points(flagSize)/2} }

func drawDashedSample(c draw.Canvas, at vg.Point) {
	box := paper.Rectangle(at.X-vg.Points(5), at.X+vg.Points(10), at.Y-vg.Points(5), at.Y+vg.Points(5))
	c.StrokeLines(paper.Line(0.9, paper.Ink, vg.Points(2), vg.Points(2)), append(box, box[0]))
}

func drawLeavingSample(c draw.Canvas, at vg.Point) {
	drawLeaving(draw.Canvas{Canvas: c.Canvas, Rectangle: vg.Rectangle{
		Min: vg.Point{X: at.X - vg.Points(8), Y: at.Y - vg.Points(leavingAbove)}, Max: vg.Point{X: at.X + vg.Points(12), Y: at.Y}}})
}

// drawSoundSample draws a click as panels do, its waveform or its level.
func drawSoundSample(waveform bool) func(draw.Canvas, vg.Point) {
	var p Panel
	for i := range 15 {
		level := -60.0
		if i >= 5 {
			level = -6 * float64(i-4)
		}
		col := describe.Column{Level: level}
		if waveform {
			col = describe.Column{Level: -60, Min: -0.5 / float64(1+max(0, i-5)*2), Max: 1 / float64(1+max(0, i-5)*2)}
			if i < 5 {
				col.Min, col.Max = 0, 0
			}
		}
		p.columns = append(p.columns, col)
	}
	s := scale{full: 1, floor: -60, loudest: 0}
	return func(c draw.Canvas, at vg.Point) {
		drawSound(draw.Canvas{Canvas: c.Canvas, Rectangle: vg.Rectangle{
			Min: vg.Point{X: at.X - vg.Points(4), Y: at.Y - vg.Points(6)}, Max: vg.Point{X: at.X + vg.Points(15), Y: at.Y + vg.Points(6)}}}, p, s)
	}
}
