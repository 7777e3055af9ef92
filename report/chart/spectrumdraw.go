package chart

import (
	"fmt"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// draw draws the spectrum on a canvas of spectrumWidth by spectrumHeight.
func (s Spectrum) draw(c draw.Canvas) {
	c.SetColor(paper)
	c.Fill(c.Rectangle.Path())
	p := spectrumPage{s, newLetters(), draw.Crop(c, margin, -margin, margin-4, -margin)}
	head := p.drawHead()
	pl := p.newPlot()
	pl.Draw(draw.Crop(p.c, 0, -8, 14, -head))
	sty := aligned(p.style(9, ink), -0.5, 0)
	p.c.FillText(sty, vg.Point{X: p.c.Center().X, Y: p.c.Min.Y}, "frequency")
}

// spectrumPage lays a spectrum out on paper.
type spectrumPage struct {
	Spectrum
	letters
	c draw.Canvas
}

// drawHead draws the clip, what is wrong with it and the legend, and returns the height
// that takes.
func (p spectrumPage) drawHead() vg.Length {
	const most = 4 // lines of faults that leave room for the lines of the spectrum
	width := p.c.Max.X - p.c.Min.X
	title := p.shrink(bold(aligned(p.style(15, ink), 0, 0)), 11, width, p.Title)
	y := p.c.Max.Y - vg.Points(13)
	p.c.FillText(title, vg.Point{X: p.c.Min.X, Y: y}, p.fit(title, width, p.Title))
	plain := aligned(p.style(10, ink), 0, 0)
	lines := []string{p.About}
	for i, fault := range p.Faults {
		if rest := len(p.Faults) - i; i == most-1 && rest > 1 {
			lines = append(lines, fmt.Sprintf("• and %d more", rest))
			break
		}
		lines = append(lines, "• "+fault)
	}
	for _, l := range lines {
		y -= vg.Points(13)
		p.c.FillText(plain, vg.Point{X: p.c.Min.X, Y: y}, p.fit(plain, width, l))
	}
	y -= vg.Points(16)
	p.drawLegend(y)
	return p.c.Max.Y - y + vg.Points(8)
}

func (p spectrumPage) drawLegend(y vg.Length) {
	sty := aligned(p.style(9, ink), 0, 0)
	const unit = "dB of full scale² in 1 Hz"
	p.c.FillText(sty, vg.Point{X: p.c.Min.X, Y: y}, unit)
	x := p.c.Min.X + sty.Width(unit) + vg.Points(30)
	entry := func(l draw.LineStyle, words string) {
		p.c.StrokeLine2(l, x, y+vg.Points(3), x+vg.Points(20), y+vg.Points(3))
		p.c.FillText(sty, vg.Point{X: x + vg.Points(25), Y: y}, words)
		x += vg.Points(45) + sty.Width(words)
	}
	if len(p.Loud) > 0 {
		entry(loudLine(), "the loudest sounds")
	}
	if len(p.Noise) > 0 {
		entry(noiseLine(), "noise between sounds")
	}
}

func loudLine() draw.LineStyle  { return line(1.8, mid) }
func noiseLine() draw.LineStyle { return line(1, ink) }

func (p spectrumPage) newPlot() *plot.Plot {
	pl := plot.New()
	pl.TextHandler = p.style(9, ink).Handler
	pl.X.Min, pl.X.Max, pl.Y.Min, pl.Y.Max = p.span()
	pl.X.Scale = plot.LogScale{}
	pl.X.Padding, pl.Y.Padding = 0, 0
	for _, a := range []*plot.Axis{&pl.X, &pl.Y} {
		a.LineStyle = line(0.6, soft)
		a.Tick.LineStyle = line(0.6, soft)
		a.Tick.Length = vg.Points(4)
	}
	pl.X.Tick.Label = aligned(p.style(9, ink), -0.5, -1)
	pl.Y.Tick.Label = aligned(p.style(9, ink), -1, -0.4)
	pl.X.Tick.Marker, pl.Y.Tick.Marker = hertzTicks(), decibelTicks(pl.Y.Min, pl.Y.Max)
	pl.Add(spectrumLines{p})
	return pl
}

// hertzTicks are at 1, 2 and 5 of each decade.
func hertzTicks() plot.ConstantTicks {
	var out plot.ConstantTicks
	for _, hz := range []float64{20, 50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000, 50000} {
		label := fmt.Sprintf("%g Hz", hz)
		if hz >= 1000 {
			label = fmt.Sprintf("%g kHz", hz/1000)
		}
		out = append(out, plot.Tick{Value: hz, Label: label})
	}
	return out
}

func decibelTicks(low, high float64) plot.ConstantTicks {
	var out plot.ConstantTicks
	for y := high; y >= low; y -= 20 {
		label := fmt.Sprintf("%g", y)
		if y < 0 {
			label = fmt.Sprintf("−%g", -y)
		}
		out = append(out, plot.Tick{Value: y, Label: label})
	}
	return out
}
