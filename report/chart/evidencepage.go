package chart

import (
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"earshot/report"
	"earshot/report/words"
)

// Heights on the picture of evidence, in points.
const (
	wholeWidth   = pageWidth - 2*margin
	evidenceHead = 30
	evidenceFoot = 36
	wideHeight   = 84
	nearHeight   = 70
	letterHeight = 12
	evidenceLine = 12
	evidenceGap  = 10
)

// Draw draws the picture as PNG or SVG.
func (v Evidence) Draw(format Format) ([]byte, error) {
	return recovered(func() ([]byte, error) { return drawn(evidencePage{v, newLetters()}, format) })
}

type evidencePage struct {
	Evidence
	letters
}

// words is what is written above the panels, in lines; the first of them are in bold.
func (p evidencePage) words() (strong, plain []string) {
	lines := p.Lines
	why := p.Why
	if why == "" && len(lines) > 0 {
		why, lines = lines[0], lines[1:]
	}
	const most = 4
	strong = p.wrap(bold(p.style(9.5, ink)), wholeWidth, words.Sentence(why), most)
	for _, w := range lines {
		plain = append(plain, p.wrap(p.style(9.5, ink), wholeWidth, words.Sentence(w), most)...)
	}
	return strong, plain
}

func (p evidencePage) size() (width, height vg.Length) {
	h := 2*margin + evidenceHead + titleHeight + panelExtra + wideHeight + letterHeight + evidenceGap + evidenceFoot
	strong, plain := p.words()
	h += evidenceLine*(len(strong)+len(plain)) + evidenceGap
	if len(p.ends) > 0 {
		h += panelExtra + nearHeight + titleHeight
	}
	if len(p.terms) > 0 {
		h += termHeight*(len(p.terms)+1) + evidenceGap
	}
	return pageWidth, vg.Points(float64(h))
}

func (p evidencePage) draw(c draw.Canvas) {
	c.SetColor(paper)
	c.Fill(c.Rectangle.Path())
	c = draw.Crop(c, margin, -margin, margin, -margin)
	date := aligned(p.style(10, ink), -1, -1)
	title := bold(aligned(p.style(14, ink), 0, 0))
	room := wholeWidth - date.Width(p.Date) - vg.Points(12)
	title = p.shrink(title, 9, room, p.Title)
	c.FillText(title, vg.Point{X: c.Min.X, Y: c.Max.Y - vg.Points(13)}, p.fit(title, room, p.Title))
	c.FillText(date, vg.Point{X: c.Max.X, Y: c.Max.Y - vg.Points(3)}, p.Date)
	y := p.drawWords(c, c.Max.Y-evidenceHead)
	y = p.drawWide(c, y)
	y = p.drawEnds(c, y)
	p.drawTerms(c, y)
	sty := aligned(p.style(8, soft), 0, 0)
	foot := []string{p.Recordings, "Dark: the waveform, above 500 Hz. Light: its level in dB, where faint sounds show.", p.soundsLine()}
	for i, l := range foot {
		c.FillText(sty, vg.Point{X: c.Min.X, Y: c.Min.Y + vg.Points(10*float64(len(foot)-1-i))}, p.fit(sty, wholeWidth, l))
	}
}

func (p evidencePage) drawWords(c draw.Canvas, y vg.Length) vg.Length {
	sty := aligned(p.style(9.5, ink), 0, -1)
	strong, plain := p.words()
	for i, l := range append(strong, plain...) {
		words := sty
		if i < len(strong) {
			words = bold(sty)
		}
		c.FillText(words, vg.Point{X: c.Min.X, Y: y}, l)
		y -= evidenceLine
	}
	return y - evidenceGap
}

// drawWide draws the sound about the firing, with a letter under each sound told of.
func (p evidencePage) drawWide(c draw.Canvas, y vg.Length) vg.Length {
	panel := p.wide.Panels[0]
	p.titleRule(c, y, "What was heard", p.wide.span(), wholeWidth)
	y -= titleHeight
	foot := y - panelExtra - wideHeight
	p.drawPanel(part(c, c.Min.X, wholeWidth, foot, y), panel, p.wide.scale)
	p.nameSounds(c, foot)
	return foot - letterHeight - evidenceGap
}

// nameSounds writes letters below the wide panel, those of ends of firings first and of
// the others as far as there is room, and what was asked about.
func (p evidencePage) nameSounds(c draw.Canvas, y vg.Length) {
	panel := p.wide.Panels[0]
	sty := aligned(p.style(8, ink), -0.5, -1)
	var taken []vg.Length
	name := func(at float64, word string) {
		x := c.Min.X + wholeWidth*vg.Length((at-panel.From)/(panel.To-panel.From))
		apart := sty.Width(word)/2 + vg.Points(5)
		if at < panel.From || at > panel.To || slices.ContainsFunc(taken, func(t vg.Length) bool { return x > t-apart && x < t+apart }) {
			return
		}
		taken = append(taken, x)
		box := y + flagSize + 1
		c.StrokeLine2(line(0.7, ink), x, box, x, box+vg.Points(4))
		c.FillText(sty, vg.Point{X: x, Y: y}, word)
	}
	for _, ends := range []bool{true, false} {
		for i, s := range p.sounds {
			if ends == (s.Is != "") {
				name(s.At, report.SoundLetter(i))
			}
		}
	}
	if p.asked > 0 {
		name(p.asked, "↑ asked")
	}
}

func (p evidencePage) drawEnds(c draw.Canvas, y vg.Length) vg.Length {
	if len(p.ends) == 0 {
		return y
	}
	width := panelWidth(2)
	p.titleRule(c, y, "Both ends from near", p.ends[0].span(), width)
	y -= titleHeight
	foot := y - panelExtra - nearHeight
	for i, s := range p.ends {
		p.drawPanel(part(c, c.Min.X+(width+columnGap)*vg.Length(i), width, foot, y), s.Panels[0], s.scale)
	}
	return foot
}

// part is a part of a canvas.
func part(c draw.Canvas, x, width, bottom, top vg.Length) draw.Canvas {
	return draw.Canvas{Canvas: c.Canvas, Rectangle: vg.Rectangle{Min: vg.Point{X: x, Y: bottom}, Max: vg.Point{X: x + width, Y: top}}}
}
