package chart

import (
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"earshot/report/chart/paper"
	"earshot/report/words"
)

// exit is the edge at which a firing leaves the chart, with the word on it.
type exit struct {
	up   bool
	word string
}

// exits are all there are, in the order in which they are drawn.
func exits() []exit {
	return []exit{
		{true, "stayed open"}, {true, "far off"}, {true, "not judged"},
		{false, words.ClosedEarly}, {false, "far off"}, {false, "not judged"},
	}
}

func (f Figure) exitOf(p Point) exit {
	up := p.Hung || p.Deviation > f.High
	switch {
	case p.Hung:
		return exit{up, "stayed open"}
	case p.Early:
		return exit{up, words.ClosedEarly}
	case p.Doubtful:
		return exit{up, "not judged"}
	}
	return exit{up, "far off"}
}

// head is the length of an arrow's head, below 0 for one that points down.
func (e exit) head() vg.Length {
	if e.up {
		return vg.Points(9)
	}
	return vg.Points(-9)
}

// drawExits draws the firings of one speed that lie outside the chart as arrows, with one word
// for those of a kind. A second word at an edge stands beside the first.
func (m marks) drawExits(c draw.Canvas, tips map[exit][]vg.Point) {
	words := map[bool]float64{}
	for _, e := range exits() {
		if len(tips[e]) == 0 {
			continue
		}
		long := e.head()
		for _, tip := range tips[e] {
			drawArrow(c, tip, long)
		}
		first, last := tips[e][0], tips[e][len(tips[e])-1]
		away := 2.7*long + long*vg.Length(1.25*words[e.up])
		paper.Label(c, m.note, vg.Point{X: m.inColumns(c, (first.X+last.X)/2, e.word), Y: first.Y - away - vg.Points(4)}, e.word)
		words[e.up]++
	}
}

// drawArrow draws an arrow with its tip at a place, up for a positive length of the
// head, down for a negative one.
func drawArrow(c draw.Canvas, tip vg.Point, long vg.Length) {
	c.StrokeLine2(paper.Line(1.6, paper.Ink), tip.X, tip.Y-2*long, tip.X, tip.Y-long)
	c.SetColor(paper.Ink)
	c.Fill(paper.ArrowHead(tip, long))
}

// nameEarly names the firings of one speed that closed early, above them.
func (m marks) nameEarly(c draw.Canvas, at []vg.Point) {
	if len(at) == 0 {
		return
	}
	middle, top := (at[0].X+at[len(at)-1].X)/2, at[0].Y
	for _, p := range at {
		top = max(top, p.Y)
	}
	paper.Label(c, m.note, vg.Point{X: m.inColumns(c, middle, words.ClosedEarly), Y: top + vg.Points(7)}, words.ClosedEarly)
}

// inColumns moves the middle of a word so that it stays off the axis.
func (m marks) inColumns(c draw.Canvas, middle vg.Length, word string) vg.Length {
	half := m.note.Width(word)/2 + vg.Points(2)
	return min(max(middle, c.Min.X+half), c.Max.X-half)
}
