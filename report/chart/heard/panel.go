package heard

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"earshot/dsp/describe"
	"earshot/report"
	"earshot/report/chart/paper"
	"earshot/report/words"
	"earshot/shutter/judge"
)

// Look shows a stretch of a clip, between two times in s, in so many columns. It is called only
// for what is drawn.
type Look func(clip int, from, to float64, columns int) ([]describe.Column, error)

// Panel is the sound of a stretch of a clip, with a firing marked in it. Times are in
// s from the clip's start.
type Panel struct {
	Clip     int
	From, To float64
	Open     float64
	Close    float64 // at or beyond To where it runs out of the panel
	Number   string  // at the left above it
	Caption  string  // after that
	Time     string  // at the right above it: how long it took
	Notes    []string
	Doubtful bool // not counted in its speed's figures
	Judged   bool // counted, at a speed with a verdict
	Cut      bool // shows a part of the firing alone
	columns  []describe.Column
	others   [][]describe.Column // of the same end of other firings
	lines    []string            // the notes below it
}

// leaves tells whether the panel ends before the firing does.
func (p Panel) leaves() bool { return !p.Cut && p.Open < p.To && p.Close >= p.To }

// decibelsShown is the largest range of levels that is drawn, in dB below the loudest, and
// leastShown the smallest, so that noise alone does not fill a panel.
const decibelsShown, leastShown = 60.0, 25.0

// underNoise is how many dB below the clip's noise the drawn levels begin, so that a quiet room
// is a thin band and a slightly louder sound a thicker one.
const underNoise = 2

// scale is what the height of a panel means: the sample value that reaches its edge,
// and the levels, in dBFS, of its middle line and its edge.
type scale struct {
	full           float64
	floor, loudest float64
}

// scaleOf is the scale at which firings of the usual loudness among these fit a panel, over a
// noise in dBFS, nil for digital silence.
func scaleOf(panels []Panel, noise *float64) scale {
	var peaks []float64
	for _, p := range panels {
		peaks = append(peaks, p.peak())
	}
	const faintest = 1e-4 // of full scale
	s := scale{loudest: 20 * math.Log10(math.Max(middle(peaks), faintest))}
	s.floor = s.loudest - decibelsShown
	if noise != nil {
		s.loudest = math.Max(s.loudest, *noise+leastShown)
		s.floor = math.Max(s.loudest-decibelsShown, *noise-underNoise)
	}
	s.full = math.Pow(10, s.loudest/20)
	return s
}

// peak is the loudest that is heard within 12 ms after either end.
func (p Panel) peak() float64 {
	const after = 0.012
	most := 0.0
	for i, c := range p.columns {
		at := p.From + (p.To-p.From)*(float64(i)+0.5)/float64(len(p.columns))
		if at > p.Open-after/4 && at < p.Open+after || at > p.Close-after/4 && at < p.Close+after {
			most = math.Max(most, math.Max(c.Max, -c.Min))
		}
	}
	return most
}

// level is how far from the middle to the edge a level reaches, 0 to 1.
func (s scale) level(dbfs float64) float64 {
	return math.Min(math.Max((dbfs-s.floor)/(s.loudest-s.floor), 0), 1)
}

// swing is how far from the middle to the edge a sample reaches, −1 to 1.
func (s scale) swing(x float64) float64 { return math.Min(math.Max(x/s.full, -1), 1) }

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
	box.FillPolygon(paper.Band, paper.Rectangle(x(p.Open), x(p.Close), box.Min.Y, box.Max.Y))
	shows := func(t float64) bool { return t >= p.From && t < p.To }
	if shows(p.Open) {
		drawOpening(box, x(p.Open), p.Judged)
	}
	if shows(p.Close) {
		drawClosing(box, x(p.Close), p.Judged)
	}
	drawSound(box, p, s)
	frame := paper.Line(0.6, paper.Soft)
	if p.Doubtful {
		frame = paper.Line(0.9, paper.Ink, vg.Points(2), vg.Points(2))
	}
	box.StrokeLines(frame, append(paper.Rectangle(box.Min.X, box.Max.X, box.Min.Y, box.Max.Y), box.Min))
	if p.leaves() {
		drawLeaving(box)
	}
}

func (l letters) captionPanel(c draw.Canvas, p Panel) {
	sty, strong := paper.Aligned(l.Style(8, paper.Soft), 0, 0), paper.Bold(paper.Aligned(l.Style(8, paper.Ink), 0, 0))
	y := c.Max.Y - vg.Points(captionHeight-2)
	c.FillText(strong, vg.Point{X: c.Min.X, Y: y}, p.Number)
	c.FillText(paper.Aligned(strong, -1, 0), vg.Point{X: c.Max.X, Y: y}, p.Time)
	x := c.Min.X + strong.Width(p.Number) + vg.Points(5)
	room := c.Max.X - x - strong.Width(p.Time) - vg.Points(4)
	sty = l.Shrink(sty, 6, room, p.Caption)
	c.FillText(sty, vg.Point{X: x, Y: y}, l.Fit(sty, room, p.Caption))
}

// drawSound draws the level about the middle line, and the waveform over it. Of other firings it
// draws only the level, as a line above.
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
	box.FillPolygon(paper.Haze, level)
	box.FillPolygon(paper.Mid, swing)
	box.StrokeLines(paper.Line(0.3, paper.Mid), swing)
	for _, other := range p.others {
		edge := make([]vg.Point, len(other))
		for i, col := range other {
			edge[i] = at(i, s.level(col.Level))
		}
		box.StrokeLines(paper.Line(0.5, paper.Soft), edge)
	}
}

// drawOpening marks an opening: a line, with a triangle above that points at it.
func drawOpening(box draw.Canvas, x vg.Length, filled bool) {
	box.StrokeLine2(paper.Line(0.7, paper.Ink), x, box.Min.Y, x, box.Max.Y)
	drawFlag(box, vg.Point{X: x, Y: box.Max.Y}, vg.Points(flagSize), filled)
}

// drawClosing marks a closing: a line, with a triangle below that points at it.
func drawClosing(box draw.Canvas, x vg.Length, filled bool) {
	box.StrokeLine2(paper.Line(0.7, paper.Ink), x, box.Min.Y, x, box.Max.Y)
	drawFlag(box, vg.Point{X: x, Y: box.Min.Y}, -vg.Points(flagSize), filled)
}

// drawFlag draws a triangle with its tip at a place, above it for a positive height.
func drawFlag(c draw.Canvas, tip vg.Point, height vg.Length, filled bool) {
	half := vg.Points(flagSize * 0.55)
	paper.DrawShape(c, paper.Polygon(tip, vg.Point{X: tip.X - half, Y: tip.Y + height}, vg.Point{X: tip.X + half, Y: tip.Y + height}), filled, 0.8)
}

// drawLeaving draws an arrow out of a panel whose firing goes on beyond it.
func drawLeaving(box draw.Canvas) {
	const long = 7
	y := box.Min.Y + vg.Points(leavingAbove)
	tip := vg.Point{X: box.Max.X + vg.Points(4), Y: y}
	box.StrokeLine2(paper.Line(2, paper.Ink), tip.X-vg.Points(3*long), y, tip.X-vg.Points(long), y)
	box.SetColor(paper.Ink)
	box.Fill(paper.Polygon(tip, vg.Point{X: tip.X - vg.Points(long), Y: y + vg.Points(long*0.6)}, vg.Point{X: tip.X - vg.Points(long), Y: y - vg.Points(long*0.6)}))
}

// judgedAt tells whether the speed that the i-th firing was made at has a verdict.
func judgedAt(d report.Document, i int) bool {
	return slices.ContainsFunc(d.Speeds, func(s report.Speed) bool {
		return s.Verdict != judge.NotJudged && slices.Contains(s.Firings, i)
	})
}

// newPanel is the panel of the i-th firing, but for how much of the clip it shows.
func newPanel(d report.Document, i int) Panel {
	f := d.Firings[i]
	p := Panel{
		Clip: f.Clip, Open: f.Open, Close: math.Inf(1), Doubtful: !f.Judged, Judged: f.Judged && judgedAt(d, i),
		Number: fmt.Sprint(i + 1), Caption: fmt.Sprintf("at %.2f s", f.Open), Time: "no closing",
	}
	if len(d.Clips) > 1 {
		p.Caption = fmt.Sprintf("clip %d, %.2f s", f.Clip+1, f.Open)
	}
	switch {
	case f.StayedOpen():
		p.Time, p.Doubtful = "stayed open", false
	case f.Duration != nil:
		p.Close, p.Time = f.Open+*f.Duration, words.Milliseconds(*f.Duration)+" ms"
	}
	if first, name, ok := d.FirstAfterRest(); ok && first == i {
		p.Notes = append(p.Notes, name)
	}
	if f.ClosedEarly() {
		p.Notes = append(p.Notes, words.ClosedEarly)
	}
	if f.Hesitated() {
		p.Notes = append(p.Notes, "falters")
	}
	if p.Doubtful {
		p.Number = "? " + p.Number
		p.Notes = append(p.Notes, "not counted: "+f.Excuse())
	}
	return p
}

// letters sets the text of these pictures.
type letters struct{ paper.Letters }

func newLetters() letters { return letters{paper.NewLetters()} }
