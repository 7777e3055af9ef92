package heard

import (
	"fmt"
	"io"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"earshot/report/chart/paper"
)

// Spectrum is what the picture of a clip's sound shows. Densities are in dB of (full
// scale)² a Hz, by rising frequency.
type Spectrum struct {
	Title, About string
	Faults       []string // a sentence each
	Noise, Loud  []Level  // either may be empty
	Heard        float64  // Hz: only what is above is listened to
	Bandwidth    float64  // Hz; 0 where sounds don't end before the sampling does
	Mains        float64  // Hz, of a hum; 0 for none
}

// Level is a density at a frequency.
type Level struct{ Hz, Density float64 }

// WriteSpectrum draws the spectrum: PNG 1600 px wide, or SVG.
func WriteSpectrum(w io.Writer, s Spectrum, f paper.Format) error {
	b, err := paper.Recovered(func() ([]byte, error) { return paper.Render(paper.Picture{Size: s.size, Draw: s.draw}, f) })
	if err != nil {
		return err
	}
	_, err = w.Write(b)
	return err
}

func (s Spectrum) size() (width, height vg.Length) { return spectrumWidth, spectrumHeight }

// deepest bounds the axis, dB: silence would press all else together.
const deepest = 100

// span is the range of both axes.
func (s Spectrum) span() (lowHz, highHz, low, high float64) {
	lowHz, highHz, low, high = 20, 1000, math.Inf(1), math.Inf(-1)
	for _, list := range [][]Level{s.Noise, s.Loud} {
		for _, l := range list {
			highHz = max(highHz, l.Hz)
			low, high = min(low, l.Density), max(high, l.Density)
		}
	}
	if math.IsInf(high, 0) {
		return lowHz, 20000, -deepest, 0
	}
	high = math.Ceil(high/10)*10 + 10
	low = max(math.Floor(low/10)*10, high-deepest)
	return lowHz, highHz, min(low, high-40), high
}

// lineAt is the density that a line has at a frequency, the nearest one.
func lineAt(list []Level, hz float64) float64 {
	best := Level{Density: math.Inf(-1)}
	for _, l := range list {
		if math.Abs(l.Hz-hz) < math.Abs(best.Hz-hz) {
			best = l
		}
	}
	return best.Density
}

// The picture is 800 × 400 px at 96 dpi.
const spectrumWidth, spectrumHeight vg.Length = 600, 300

// draw draws the spectrum on a canvas of spectrumWidth by spectrumHeight.
func (s Spectrum) draw(c draw.Canvas) {
	c.SetColor(paper.Blank)
	c.Fill(c.Rectangle.Path())
	p := spectrumPage{s, newLetters(), draw.Crop(c, paper.Margin, -paper.Margin, paper.Margin-4, -paper.Margin)}
	head := p.drawHead()
	pl := p.newPlot()
	pl.Draw(draw.Crop(p.c, 0, -8, 14, -head))
	sty := paper.Aligned(p.Style(9, paper.Ink), -0.5, 0)
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
	title := p.Shrink(paper.Bold(paper.Aligned(p.Style(15, paper.Ink), 0, 0)), 11, width, p.Title)
	y := p.c.Max.Y - vg.Points(13)
	p.c.FillText(title, vg.Point{X: p.c.Min.X, Y: y}, p.Fit(title, width, p.Title))
	plain := paper.Aligned(p.Style(10, paper.Ink), 0, 0)
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
		p.c.FillText(plain, vg.Point{X: p.c.Min.X, Y: y}, p.Fit(plain, width, l))
	}
	y -= vg.Points(16)
	p.drawLegend(y)
	return p.c.Max.Y - y + vg.Points(8)
}

func (p spectrumPage) drawLegend(y vg.Length) {
	sty := paper.Aligned(p.Style(9, paper.Ink), 0, 0)
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

func loudLine() draw.LineStyle { return paper.Line(1.8, paper.Mid) }

func noiseLine() draw.LineStyle { return paper.Line(1, paper.Ink) }

func (p spectrumPage) newPlot() *plot.Plot {
	pl := plot.New()
	pl.TextHandler = p.Style(9, paper.Ink).Handler
	pl.X.Min, pl.X.Max, pl.Y.Min, pl.Y.Max = p.span()
	pl.X.Scale = plot.LogScale{}
	pl.X.Padding, pl.Y.Padding = 0, 0
	for _, a := range []*plot.Axis{&pl.X, &pl.Y} {
		a.LineStyle = paper.Line(0.6, paper.Soft)
		a.Tick.LineStyle = paper.Line(0.6, paper.Soft)
		a.Tick.Length = vg.Points(4)
	}
	pl.X.Tick.Label = paper.Aligned(p.Style(9, paper.Ink), -0.5, -1)
	pl.Y.Tick.Label = paper.Aligned(p.Style(9, paper.Ink), -1, -0.4)
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

// spectrumLines draws what lies within the axes.
type spectrumLines struct{ spectrumPage }

func (s spectrumLines) Plot(c draw.Canvas, p *plot.Plot) {
	trX, trY := p.Transforms(&c)
	s.Heard = max(s.Heard, p.X.Min)
	c.FillPolygon(paper.Band, paper.Rectangle(c.Min.X, trX(s.Heard), c.Min.Y, c.Max.Y))
	for _, t := range append(hertzTicks(), plot.Tick{Value: s.Heard}) {
		if t.Value > p.X.Min && t.Value < p.X.Max {
			c.StrokeLine2(paper.Line(0.4, paper.Faint), trX(t.Value), c.Min.Y, trX(t.Value), c.Max.Y)
		}
	}
	for _, t := range decibelTicks(p.Y.Min, p.Y.Max) {
		c.StrokeLine2(paper.Line(0.4, paper.Faint), c.Min.X, trY(t.Value), c.Max.X, trY(t.Value))
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
	sty := paper.Aligned(s.Style(9, paper.Ink), -1, 0)
	c.FillText(sty, vg.Point{X: trX(s.Heard) - vg.Points(4), Y: c.Min.Y + vg.Points(4)}, fmt.Sprintf("below %g Hz: not listened to", s.Heard))
}

func (s spectrumLines) nameBandwidth(c draw.Canvas, trX func(float64) vg.Length) {
	if s.Bandwidth == 0 {
		return
	}
	x := trX(s.Bandwidth)
	c.StrokeLine2(paper.Line(1.3, paper.Soft, vg.Points(6), vg.Points(3)), x, c.Min.Y, x, c.Max.Y)
	words := fmt.Sprintf("nothing above %.1f kHz", s.Bandwidth/1000)
	sty := s.Style(9, paper.Ink)
	paper.Label(c, sty, vg.Point{X: min(x, c.Max.X-sty.Width(words)/2-vg.Points(3)), Y: c.Max.Y - vg.Points(12)}, words)
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
		c.SetColor(paper.Ink)
		c.Fill(paper.ArrowHead(tip, -vg.Points(5)))
		top = max(top, tip.Y)
	}
	sty := s.Style(9, paper.Ink)
	paper.Label(c, sty, vg.Point{X: trX(s.Mains * 3), Y: min(top+vg.Points(9), c.Max.Y-vg.Points(11))}, fmt.Sprintf("hum: %.0f Hz and its multiples", s.Mains))
}
