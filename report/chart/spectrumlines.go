package chart

import (
	"fmt"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// spectrumLines draws what lies within the axes.
type spectrumLines struct{ spectrumPage }

func (s spectrumLines) Plot(c draw.Canvas, p *plot.Plot) {
	trX, trY := p.Transforms(&c)
	s.Heard = max(s.Heard, p.X.Min)
	c.FillPolygon(band, rectangle(c.Min.X, trX(s.Heard), c.Min.Y, c.Max.Y))
	for _, t := range append(hertzTicks(), plot.Tick{Value: s.Heard}) {
		if t.Value > p.X.Min && t.Value < p.X.Max {
			c.StrokeLine2(line(0.4, faint), trX(t.Value), c.Min.Y, trX(t.Value), c.Max.Y)
		}
	}
	for _, t := range decibelTicks(p.Y.Min, p.Y.Max) {
		c.StrokeLine2(line(0.4, faint), c.Min.X, trY(t.Value), c.Max.X, trY(t.Value))
	}
	for _, l := range []struct {
		levels []Level
		style  draw.LineStyle
	}{{s.Noise, noiseLine()}, {s.Loud, loudLine()}} {
		points := make([]vg.Point, len(l.levels))
		for i, v := range l.levels {
			points[i] = vg.Point{X: trX(max(v.Hz, p.X.Min)), Y: trY(v.Density)}
		}
		c.StrokeLines(l.style, c.ClipLinesXY(points)...)
	}
	if s.Heard > p.X.Min {
		s.nameHeard(c, trX)
	}
	s.nameBandwidth(c, trX)
	s.nameHum(c, trX, trY)
}

// nameHeard says what the shaded part is, at the foot of it.
func (s spectrumLines) nameHeard(c draw.Canvas, trX func(float64) vg.Length) {
	sty := aligned(s.style(9, ink), -1, 0)
	c.FillText(sty, vg.Point{X: trX(s.Heard) - vg.Points(4), Y: c.Min.Y + vg.Points(4)}, fmt.Sprintf("below %g Hz: not listened to", s.Heard))
}

func (s spectrumLines) nameBandwidth(c draw.Canvas, trX func(float64) vg.Length) {
	if s.Bandwidth == 0 {
		return
	}
	x := trX(s.Bandwidth)
	c.StrokeLine2(line(1.3, soft, vg.Points(6), vg.Points(3)), x, c.Min.Y, x, c.Max.Y)
	words := fmt.Sprintf("nothing above %.1f kHz", s.Bandwidth/1000)
	sty := s.style(9, ink)
	label(c, sty, vg.Point{X: min(x, c.Max.X-sty.Width(words)/2-vg.Points(3)), Y: c.Max.Y - vg.Points(12)}, words)
}

// nameHum points at the lines of a hum.
func (s spectrumLines) nameHum(c draw.Canvas, trX, trY func(float64) vg.Length) {
	const lines = 8
	if s.Mains == 0 || len(s.Noise) == 0 {
		return
	}
	top := c.Min.Y
	for k := 1.0; k <= lines; k++ {
		tip := vg.Point{X: trX(s.Mains * k), Y: min(trY(lineAt(s.Noise, s.Mains*k))+vg.Points(3), c.Max.Y-vg.Points(16))}
		c.SetColor(ink)
		c.Fill(arrowHead(tip, -vg.Points(5)))
		top = max(top, tip.Y)
	}
	sty := s.style(9, ink)
	label(c, sty, vg.Point{X: trX(s.Mains * 3), Y: min(top+vg.Points(9), c.Max.Y-vg.Points(11))}, fmt.Sprintf("hum: %.0f Hz and its multiples", s.Mains))
}
