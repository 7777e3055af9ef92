package chart

import (
	"fmt"
	"strings"

	"earshot/report"
	"earshot/report/words"
	"earshot/shutter/judge"
)

// Figure is what a chart shows. Deviations are in stops, + is slow.
type Figure struct {
	Title, Number, Date string
	Verdict             string   // with what it holds for
	Findings            []string // what matters most, a sentence each
	Footer              []string
	Woke                string  // names the first firing after the rest that was told
	Good                float64 // half-width of the good band
	Service             float64 // deviation beyond which service is advised
	Columns             []Column
	Low, High           float64  // range of the axis; what lies outside is drawn at its edge
	Rows                []string // names of the figures under each column, the last of its verdict
	Was, Now            string   // the days of two sittings, where the chart compares them
	Bare                bool     // no more than the plot and its legend: what is around says the rest
}

// Column is one speed of the dial.
type Column struct {
	Marked  string
	Cells   []string // below the mark, one for each of the figure's rows
	Verdict judge.Verdict
	Assumed bool
	Points  []Point
	Mean    *Mean
	Before  *Mean // of an earlier sitting, where one is compared
	Changed bool  // the mean really is another than before
}

// Judged says whether the speed has a verdict.
func (c Column) Judged() bool { return c.Verdict != judge.NotJudged }

// Point is one firing, in the order fired. A hung one stayed open and has no
// deviation.
type Point struct {
	Deviation float64
	First     bool // the first at its speed
	Woke      bool // the first after the rest that was told
	Doubtful  bool // not counted in its speed's figures
	Judged    bool // counted, at a speed with a verdict
	Hung      bool
	Early     bool // closed early
}

// Mean is the mean deviation and its 95 % half-width; a median has none.
type Mean struct {
	Deviation, U95 float64
	Median         bool
}

// New works out what the chart of a document shows.
func New(d report.Document) Figure {
	name, number := d.Title()
	f := Figure{
		Title: name, Number: number, Date: words.Date(d.Made), Verdict: d.VerdictWords(), Findings: d.Headlines(),
		Footer: footer(d), Good: d.Policy.Good, Service: d.Policy.Service,
		Rows: []string{"exact, ms", "measured, ms", "off, stops", "verdict"},
	}
	first, woke, rested := d.FirstAfterRest()
	for _, s := range d.Speeds {
		f.Columns = append(f.Columns, newColumn(d, s, func(firing int) bool { return rested && firing == first }))
	}
	f.Woke = woke
	f.Low, f.High = axisRange(f)
	return f
}

func newColumn(d report.Document, s report.Speed, woke func(firing int) bool) Column {
	c := Column{Marked: words.Mark(s.Marked), Verdict: s.Verdict, Assumed: s.Assumed}
	measured, off := "-", "-"
	switch {
	case s.Deviation != nil && s.Mean != nil:
		measured, off = words.Milliseconds(*s.Mean), words.Signed(*s.Deviation)
		c.Mean = &Mean{Deviation: *s.Deviation}
		if s.U95 != nil {
			c.Mean.U95 = *s.U95
		}
	case s.Median != nil:
		measured, off = "median "+words.Milliseconds(s.MedianTime()), words.Signed(*s.Median)
		c.Mean = &Mean{Deviation: *s.Median, Median: true}
	}
	c.Cells = []string{words.ExactMilliseconds(s.Nominal), measured, off}
	for i, n := range s.Firings {
		if p, ok := newPoint(d.Firings[n]); ok {
			p.First, p.Woke, p.Judged = i == 0, woke(n), c.Judged() && !p.Doubtful
			c.Points = append(c.Points, p)
		}
	}
	return c
}

// newPoint has no point for a firing that was neither timed nor left open, as where the clip
// cut it short.
func newPoint(f report.Firing) (Point, bool) {
	switch {
	case f.StayedOpen():
		return Point{Hung: true}, true
	case f.Deviation != nil:
		return Point{Deviation: *f.Deviation, Doubtful: !f.Judged, Early: f.ClosedEarly()}, true
	}
	return Point{}, false
}

func footer(d report.Document) []string {
	byHand := d.ByHandWords()
	if byHand != "" {
		byHand += ". "
	}
	return []string{
		byHand + fmt.Sprintf("%s. Policy %s. Measured by %s.", d.CountWords(), d.Policy.Name, strings.TrimSpace("earshot "+d.Tool.Version)),
		d.Recordings(),
		words.NotTested,
	}
}
