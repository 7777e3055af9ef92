package heard

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"earshot/report"
	"earshot/report/chart/paper"
	"earshot/report/words"
)

// Evidence is a picture of why there is a firing, or why there is none: the sound around it,
// both ends enlarged, and the evidence for it and against it.
type Evidence struct {
	Title, Date string
	Why         string
	Lines       []string // what else is to be said
	Recordings  string
	wide        Strip
	ends        []Strip    // the opening and the closing from near
	asked       float64    // the time that was asked about, 0 for none
	leads       [2]float64 // by how much later than other firings are timed its ends are marked, s
	sounds      []report.Nearby
	terms       []report.Evidence // and their sum
}

// From how much of the clip the pictures are, s.
const (
	leastAround = 0.2 // before the opening and after the closing
	partAround  = 0.3 // or this part of what lies between
	mostAround  = 1.0
	longestWide = 7.0   // where nothing closes
	nearBefore  = 0.006 // before an end, from near
	nearAfter   = 0.018 // and after it: a movement and its bounce
)

// NewEvidence computes the picture of an explanation. It reads the sound by look, and returns
// its error, wrapped.
func NewEvidence(d report.Document, x report.Explanation, look Look) (Evidence, error) {
	v := Evidence{
		Title: x.Heading, Date: words.Date(d.Made), Lines: x.Notes, sounds: x.Sounds,
		Recordings: d.Recordings(),
	}
	if len(x.Candidates) > 0 {
		c := x.Candidates[0]
		v.terms, v.Why = append(c.Evidence, c.Sum()...), c.Why
	}
	if x.Firing == nil {
		v.asked, v.leads = x.At, x.Leads
		return v, v.lay(d, candidatePanel(d, x), look)
	}
	p := newPanel(d, *x.Firing)
	p.Notes = nil
	return v, v.lay(d, p, look)
}

// candidatePanel is the panel of the likeliest pair near a time, or of the time alone if there
// is no pair.
func candidatePanel(d report.Document, x report.Explanation) Panel {
	clip := slices.IndexFunc(d.Clips, func(c report.Clip) bool { return c.File == x.File })
	p := Panel{Clip: max(0, clip), Open: math.Inf(1), Close: math.Inf(1), From: x.At - leastAround, To: x.At + leastAround}
	if len(x.Candidates) > 0 && x.Candidates[0].Close != nil {
		c := x.Candidates[0]
		p.Open, p.Close, p.Doubtful = c.Open, *c.Close, true
		p.Number, p.Time = "? the likeliest pair of sounds", words.Milliseconds(*c.Close-c.Open)+" ms apart"
	}
	return p
}

// lay sets the panels about the firing, or the pair, that p marks.
func (v *Evidence) lay(d report.Document, p Panel, look Look) error {
	if !math.IsInf(p.Open, 1) {
		until := math.Min(p.Close, p.Open+longestWide)
		margin := min(max(leastAround, partAround*(until-p.Open)), mostAround)
		p.From, p.To = p.Open-margin, until+margin
		v.ends = append(v.ends, near(p, "the opening", p.Open))
		if !math.IsInf(p.Close, 1) {
			v.ends = append(v.ends, near(p, "the closing", p.Close))
		}
	}
	v.wide = Strip{Panels: []Panel{p}}
	if err := v.wide.look(d, look, wholeWidth); err != nil {
		return err
	}
	for i := range v.ends {
		if err := v.ends[i].look(d, look, panelWidth(2)); err != nil {
			return err
		}
		v.ends[i].scale = v.wide.scale
	}
	return v.compare(d, look)
}

// compare looks at the ends of some other firings of the clip, those next to it.
func (v *Evidence) compare(d report.Document, look Look) error {
	for _, f := range others(d, v.wide.Panels[0]) {
		for i, at := range []float64{f.Open, *f.Close}[:len(v.ends)] {
			p := &v.ends[i].Panels[0]
			at += v.leads[i]
			columns, err := look(f.Clip, at-nearBefore, at+nearAfter, len(p.columns))
			if err != nil {
				return fmt.Errorf("the picture of another firing: %w", err)
			}
			p.others = append(p.others, columns)
			p.Caption = fmt.Sprintf("line: %d other firings", len(p.others))
		}
	}
	return nil
}

// others are the counted firings of a panel's clip that are nearest to it, without its own.
func others(d report.Document, p Panel) []report.Firing {
	const enough = 6
	var all []report.Firing
	for _, f := range d.Firings {
		if f.Clip == p.Clip && f.Judged && f.Close != nil && f.Open != p.Open {
			all = append(all, f)
		}
	}
	far := func(f report.Firing) float64 { return math.Abs(f.Open - p.Open) }
	slices.SortStableFunc(all, func(f, g report.Firing) int { return cmp.Compare(far(f), far(g)) })
	return all[:min(len(all), enough)]
}

// near is one end of a firing from near.
func near(p Panel, name string, at float64) Strip {
	p.From, p.To = at-nearBefore, at+nearAfter
	p.Cut = true
	p.Number, p.Caption, p.Time = name, "", fmt.Sprintf("%.4f s", at)
	return Strip{Panels: []Panel{p}}
}

// soundsLine says what the letters stand for.
func (v Evidence) soundsLine() string {
	var parts []string
	for i, s := range v.sounds {
		if s.Is != "" {
			parts = append(parts, report.SoundLetter(i)+": "+s.Is)
		}
	}
	switch {
	case len(parts) == 0 && len(v.sounds) > 0:
		return "Letters: other sounds that stand out"
	case len(parts) < len(v.sounds):
		parts = append(parts, "the other letters: sounds that stand out")
	}
	return strings.Join(parts, "; ")
}

// Heights on the picture of evidence, in points.
const (
	wholeWidth   = paper.PageWidth - 2*paper.Margin
	evidenceHead = 30
	evidenceFoot = 36
	wideHeight   = 84
	nearHeight   = 70
	letterHeight = 12
	evidenceLine = 12
	evidenceGap  = 10
)

// Draw draws the picture as PNG or SVG.
func (v Evidence) Draw(format paper.Format) ([]byte, error) {
	return paper.Recovered(func() ([]byte, error) {
		p := evidencePage{v, newLetters()}
		return paper.Render(paper.Picture{Size: p.size, Draw: p.draw}, format)
	})
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
	strong = p.Wrap(paper.Bold(p.Style(9.5, paper.Ink)), wholeWidth, words.Sentence(why), most)
	for _, w := range lines {
		plain = append(plain, p.Wrap(p.Style(9.5, paper.Ink), wholeWidth, words.Sentence(w), most)...)
	}
	return strong, plain
}

func (p evidencePage) size() (width, height vg.Length) {
	h := 2*paper.Margin + evidenceHead + titleHeight + panelExtra + wideHeight + letterHeight + evidenceGap + evidenceFoot
	strong, plain := p.words()
	h += evidenceLine*(len(strong)+len(plain)) + evidenceGap
	if len(p.ends) > 0 {
		h += panelExtra + nearHeight + titleHeight
	}
	if len(p.terms) > 0 {
		h += termHeight*(len(p.terms)+1) + evidenceGap
	}
	return paper.PageWidth, vg.Points(float64(h))
}

func (p evidencePage) draw(c draw.Canvas) {
	c.SetColor(paper.Blank)
	c.Fill(c.Rectangle.Path())
	c = draw.Crop(c, paper.Margin, -paper.Margin, paper.Margin, -paper.Margin)
	date := paper.Aligned(p.Style(10, paper.Ink), -1, -1)
	title := paper.Bold(paper.Aligned(p.Style(14, paper.Ink), 0, 0))
	room := wholeWidth - date.Width(p.Date) - vg.Points(12)
	title = p.Shrink(title, 9, room, p.Title)
	c.FillText(title, vg.Point{X: c.Min.X, Y: c.Max.Y - vg.Points(13)}, p.Fit(title, room, p.Title))
	c.FillText(date, vg.Point{X: c.Max.X, Y: c.Max.Y - vg.Points(3)}, p.Date)
	y := p.drawWords(c, c.Max.Y-evidenceHead)
	y = p.drawWide(c, y)
	y = p.drawEnds(c, y)
	p.drawTerms(c, y)
	sty := paper.Aligned(p.Style(8, paper.Soft), 0, 0)
	foot := []string{p.Recordings, "Dark: the waveform, above 500 Hz. Light: its level in dB, where faint sounds show.", p.soundsLine()}
	for i, l := range foot {
		c.FillText(sty, vg.Point{X: c.Min.X, Y: c.Min.Y + vg.Points(10*float64(len(foot)-1-i))}, p.Fit(sty, wholeWidth, l))
	}
}

func (p evidencePage) drawWords(c draw.Canvas, y vg.Length) vg.Length {
	sty := paper.Aligned(p.Style(9.5, paper.Ink), 0, -1)
	strong, plain := p.words()
	for i, l := range append(strong, plain...) {
		words := sty
		if i < len(strong) {
			words = paper.Bold(sty)
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

// nameSounds writes letters below the wide panel: first those of the ends of firings, then those
// of other sounds as far as there is room. It also marks what was asked about.
func (p evidencePage) nameSounds(c draw.Canvas, y vg.Length) {
	panel := p.wide.Panels[0]
	sty := paper.Aligned(p.Style(8, paper.Ink), -0.5, -1)
	var taken []vg.Length
	name := func(at float64, word string) {
		x := c.Min.X + wholeWidth*vg.Length((at-panel.From)/(panel.To-panel.From))
		apart := sty.Width(word)/2 + vg.Points(5)
		if at < panel.From || at > panel.To || slices.ContainsFunc(taken, func(t vg.Length) bool { return x > t-apart && x < t+apart }) {
			return
		}
		taken = append(taken, x)
		box := y + flagSize + 1
		c.StrokeLine2(paper.Line(0.7, paper.Ink), x, box, x, box+vg.Points(4))
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
