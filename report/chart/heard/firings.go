package heard

import (
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

// Firings is a picture of every firing of a document, in strips by speed. Many firings
// take several pages.
type Firings struct {
	Title, Number, Date string
	Counts              string
	Recordings          string
	strips              []Strip
	pages               [][]row
}

// row is what of a strip stands side by side.
type row struct {
	strip     *Strip
	first     bool // of its strip on its page
	continued bool // from the page before
	panels    []Panel
}

// Panels side by side, and the heights of things, in points.
const (
	fewestColumns, mostColumns = 3, 5
	columnGap                  = 10
	soundHeight                = 46
	titleHeight                = 19
	rowGap                     = 5
	firingsHead, firingsFoot   = 60, 34
	highestPage                = 1400 // 60 firings at seven speeds
)

// NewFirings computes the pictures of a document's firings. It reads the sound of each by look,
// and returns its error, wrapped.
func NewFirings(d report.Document, look Look) (Firings, error) {
	name, number := d.Title()
	f := Firings{Title: name, Number: number, Date: words.Date(d.Made), Counts: counts(d), Recordings: d.Recordings(), strips: strips(d)}
	for i := range f.strips {
		s := &f.strips[i]
		if err := s.look(d, look, panelWidth(s.columns())); err != nil {
			return Firings{}, err
		}
	}
	f.pages = newLetters().paged(f.strips)
	return f, nil
}

// counts accounts for the firings, and says where their times were set by hand.
func counts(d report.Document) string {
	if byHand := d.ByHandWords(); byHand != "" {
		return d.CountWords() + ". " + byHand
	}
	return d.CountWords()
}

// columns is how many panels of a strip stand side by side: all if there is room, or else about
// the same number in each row.
func (s Strip) columns() int {
	n := len(s.Panels)
	rows := (n + mostColumns - 1) / mostColumns
	return max((n+rows-1)/rows, fewestColumns)
}

// Pages is how many pictures there are, at least one.
func (f Firings) Pages() int { return max(1, len(f.pages)) }

// Page is one of the pictures, the first being 0, as PNG or SVG.
func (f Firings) Page(i int, format paper.Format) ([]byte, error) {
	p := firingsPage{Firings: f, letters: newLetters(), number: i}
	if len(f.pages) > 0 {
		p.rows = f.pages[i]
	}
	return paper.Recovered(func() ([]byte, error) { return paper.Render(paper.Picture{Size: p.size, Draw: p.draw}, format) })
}

// paged sets strips in rows, and rows on pages no higher than highestPage.
func (l letters) paged(strips []Strip) [][]row {
	var pages [][]row
	room := 0.0
	for i := range strips {
		s := &strips[i]
		columns := s.columns()
		l.wrapNotes(s, panelWidth(columns))
		for at := 0; at < len(s.Panels); at += columns {
			r := row{strip: s, first: at == 0, panels: s.Panels[at:min(at+columns, len(s.Panels))]}
			if room -= r.height(); room < 0 {
				r.continued, r.first = at > 0, true
				pages, room = append(pages, nil), highestPage-firingsHead-firingsFoot-r.height()
			}
			pages[len(pages)-1] = append(pages[len(pages)-1], r)
		}
	}
	return pages
}

// wrapNotes breaks the notes of panels of a width into lines. A note that all panels share
// stands beside the title.
func (l letters) wrapNotes(s *Strip, width vg.Length) {
	const most = 5
	if shared := s.sharedNote(); shared != "" {
		s.Detail = strings.TrimPrefix(s.Detail+"; all "+shared, "; ")
		return
	}
	for i := range s.Panels {
		p := &s.Panels[i]
		for _, n := range p.Notes {
			p.lines = append(p.lines, l.Wrap(l.Style(noteSize, paper.Ink), width, n, most)...)
		}
	}
}

// sharedNote is the one note that every panel of several has; empty where there is none.
func (s Strip) sharedNote() string {
	for _, p := range s.Panels {
		if !slices.Equal(p.Notes, s.Panels[0].Notes) || len(p.Notes) != 1 || len(s.Panels) < 2 {
			return ""
		}
	}
	return s.Panels[0].Notes[0]
}

// height is what a row takes, in points.
func (r row) height() float64 {
	h := float64(panelExtra + soundHeight + rowGap)
	if r.first {
		h += titleHeight
	}
	lines := 0
	for _, p := range r.panels {
		lines = max(lines, len(p.lines))
	}
	return h + noteHeight*float64(lines)
}

// scaleBar is a round time in s that takes up to a third of a panel, and its name.
func scaleBar(span float64) (long float64, name string) {
	third := span / 3
	power := math.Pow10(int(math.Floor(math.Log10(third))))
	for _, m := range []float64{5, 2, 1} {
		if m*power <= third {
			long = m * power
			break
		}
	}
	if long >= 1 {
		return long, fmt.Sprintf("%g s", long)
	}
	return long, fmt.Sprintf("%g ms", math.Round(long*1e6)/1e3)
}

// firingsPage is one page of the pictures of firings.
type firingsPage struct {
	Firings
	letters
	rows   []row
	number int // from 0
}

func (p firingsPage) size() (width, height vg.Length) {
	h := 2*paper.Margin + p.headHeight() + firingsFoot
	for _, r := range p.rows {
		h += r.height()
	}
	return paper.PageWidth, vg.Points(h)
}

// headHeight is what stands above the strips, in points.
func (p firingsPage) headHeight() float64 {
	return firingsHead + paper.LegendRow*float64(max(0, len(p.legendRows())-1))
}

func panelWidth(columns int) vg.Length {
	return (paper.PageWidth - 2*paper.Margin - columnGap*vg.Length(columns-1)) / vg.Length(columns)
}

func (p firingsPage) draw(c draw.Canvas) {
	c.SetColor(paper.Blank)
	c.Fill(c.Rectangle.Path())
	c = draw.Crop(c, paper.Margin, -paper.Margin, paper.Margin, -paper.Margin)
	p.drawHead(c)
	y := c.Max.Y - vg.Points(p.headHeight())
	for _, r := range p.rows {
		p.drawRow(draw.Crop(c, 0, 0, 0, y-c.Max.Y), r)
		y -= vg.Points(r.height())
	}
	sty := paper.Aligned(p.Style(8, paper.Soft), 0, 0)
	if len(p.rows) == 0 {
		c.FillText(paper.Aligned(p.Style(13, paper.Ink), -0.5, 0), vg.Point{X: c.Center().X, Y: y - vg.Points(8)}, "no firing was heard")
	}
	for i, l := range slices.Backward(p.foot()) {
		c.FillText(sty, vg.Point{X: c.Min.X, Y: c.Min.Y + vg.Points(10*float64(len(p.foot())-1-i))}, p.Fit(sty, c.Max.X-c.Min.X, l))
	}
}

func (p firingsPage) foot() []string {
	return []string{p.Recordings, "Sound above 500 Hz. The panels of a speed have one scale of time and of loudness; a sound louder than usual is cut off."}
}

func (p firingsPage) drawHead(c draw.Canvas) {
	title, date := paper.Bold(paper.Aligned(p.Style(15, paper.Ink), 0, 0)), paper.Aligned(p.Style(10, paper.Ink), -1, -1)
	plain := paper.Aligned(p.Style(10, paper.Ink), 0, -1)
	top, width := c.Max.Y, c.Max.X-c.Min.X
	room := width - date.Width(p.Date) - vg.Points(12)
	title = p.Shrink(title, 11, room, p.Title+p.Number)
	c.FillText(title, vg.Point{X: c.Min.X, Y: top - vg.Points(13)}, p.Fit(title, room-title.Width(p.Legible(p.Number)), p.Title)+p.Fit(title, room/3, p.Number))
	c.FillText(date, vg.Point{X: c.Max.X, Y: top - vg.Points(3)}, p.Date)
	words := p.Counts + ". Each panel is the sound of one firing, aligned at the opening."
	if p.Pages() > 1 {
		words += fmt.Sprintf(" Picture %d of %d.", p.number+1, p.Pages())
	}
	c.FillText(plain, vg.Point{X: c.Min.X, Y: top - vg.Points(20)}, p.Fit(plain, width, words))
	p.DrawEntries(c, vg.Point{X: c.Min.X, Y: top - vg.Points(42)}, p.legendRows())
}

func (p firingsPage) drawRow(c draw.Canvas, r row) {
	y := c.Max.Y
	if r.first {
		p.drawStripTitle(c, r)
		y -= vg.Points(titleHeight)
	}
	width := panelWidth(r.strip.columns())
	note := paper.Aligned(p.Style(noteSize, paper.Ink), 0, -1)
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
	plain := paper.Aligned(p.Style(9, paper.Ink), 0, 0)
	c.FillText(plain, vg.Point{X: x, Y: c.Max.Y - vg.Points(13)}, p.Fit(plain, room, words))
}

// titleRule draws a rule with a title below it, and at the right a bar for the scale of time of
// panels so wide that show span s. It returns where there is room for more words, and
// how much.
func (l letters) titleRule(c draw.Canvas, top vg.Length, title string, span float64, width vg.Length) (x, room vg.Length) {
	strong, plain := paper.Bold(paper.Aligned(l.Style(11, paper.Ink), 0, 0)), paper.Aligned(l.Style(9, paper.Ink), 0, 0)
	c.StrokeLine2(paper.Line(0.5, paper.Faint), c.Min.X, top-vg.Points(2), c.Max.X, top-vg.Points(2))
	y := top - vg.Points(13)
	title = l.Legible(title)
	c.FillText(strong, vg.Point{X: c.Min.X, Y: y}, title)
	long, name := scaleBar(span)
	bar := width * vg.Length(long/span)
	drawScaleBar(c, vg.Point{X: c.Max.X, Y: y + vg.Points(3)}, bar)
	c.FillText(paper.Aligned(plain, -1, 0), vg.Point{X: c.Max.X - bar - vg.Points(4), Y: y}, name)
	x = c.Min.X + strong.Width(title) + vg.Points(10)
	return x, c.Max.X - bar - vg.Points(16) - plain.Width(name) - x
}

// drawScaleBar draws a bar of a length that ends at a place.
func drawScaleBar(c draw.Canvas, end vg.Point, long vg.Length) {
	c.StrokeLine2(paper.Line(1.4, paper.Ink), end.X-long, end.Y, end.X, end.Y)
	for _, x := range []vg.Length{end.X - long, end.X} {
		c.StrokeLine2(paper.Line(1, paper.Ink), x, end.Y-vg.Points(3), x, end.Y+vg.Points(3))
	}
}
