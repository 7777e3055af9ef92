package chart

import (
	"fmt"
	"strings"

	"earshot/report"
	"earshot/shutter"
)

// Figure is what a chart shows. Deviations are in stops, + is slow.
type Figure struct {
	Title, Number, Date string
	Verdict             string // with what it holds for
	Finding             string // symptoms or deviations that matter most, in one sentence; may be empty
	Footer              []string
	Good                float64 // half-width of the good band
	Service             float64 // deviation beyond which service is advised
	Columns             []Column
	Low, High           float64 // range of the axis; what lies outside is drawn at its edge
}

// Column is one speed of the dial.
type Column struct {
	Marked, Exact, Measured, Off string
	Verdict                      shutter.Verdict
	Assumed                      bool
	Points                       []Point
	Mean                         *Mean
}

// Judged says whether the speed has a verdict.
func (c Column) Judged() bool { return c.Verdict != shutter.NotJudged }

// Point is one firing, in the order fired. A hung one never closed and has no
// deviation.
type Point struct {
	Deviation float64
	First     bool // the first at its speed
	Doubtful  bool // not counted in its speed's figures
	Judged    bool // counted, at a speed with a verdict
	Hung      bool
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
		Title: name, Number: number, Date: report.Date(d.Made), Verdict: d.VerdictWords(), Finding: finding(d),
		Footer: footer(d), Good: d.Policy.Good, Service: d.Policy.Service,
	}
	for _, s := range d.Speeds {
		f.Columns = append(f.Columns, newColumn(d, s))
	}
	f.Low, f.High = axisRange(f)
	return f
}

func newColumn(d report.Document, s report.Speed) Column {
	c := Column{
		Marked: report.MarkWords(s.Marked), Exact: report.ExactMilliseconds(s.Nominal), Measured: "-", Off: "-",
		Verdict: s.Verdict, Assumed: s.Assumed,
	}
	switch {
	case s.Deviation != nil && s.Mean != nil:
		c.Measured, c.Off = report.Milliseconds(*s.Mean), signed(*s.Deviation)
		c.Mean = &Mean{Deviation: *s.Deviation}
		if s.U95 != nil {
			c.Mean.U95 = *s.U95
		}
	case s.Median != nil:
		c.Measured, c.Off = report.Milliseconds(s.MedianTime()), signed(*s.Median)
		c.Mean = &Mean{Deviation: *s.Median, Median: true}
	}
	for i, n := range s.Firings {
		if p, ok := newPoint(d.Firings[n]); ok {
			p.First, p.Judged = i == 0, c.Judged() && !p.Doubtful
			c.Points = append(c.Points, p)
		}
	}
	return c
}

// newPoint is not there for a firing that was neither timed nor left open, one the
// clip cut short say.
func newPoint(f report.Firing) (Point, bool) {
	if f.Deviation != nil {
		return Point{Deviation: *f.Deviation, Doubtful: !f.Judged}, true
	}
	for _, s := range f.Symptoms {
		if s == string(shutter.HangsOpen) {
			return Point{Hung: true}, true
		}
	}
	return Point{}, false
}

// finding names the symptoms and where they are, or else why the verdict is what it is.
func finding(d report.Document) string {
	var words []string
	for _, f := range d.Findings() {
		words = append(words, f.Words())
	}
	if len(words) == 0 {
		words = d.Why
	}
	return strings.Join(words, "; ")
}

func footer(d report.Document) []string {
	var clips []string
	for _, c := range d.Clips {
		clips = append(clips, fmt.Sprintf("%s (sha256 %s)", c.File, report.Short(c.SHA256)))
	}
	return []string{
		fmt.Sprintf("%s. Policy %s. Measured by earshot %s.", d.CountWords(), d.Policy.Name, d.Tool.Version),
		"Sound recording: " + strings.Join(clips, ", "),
		"Timed by sound, not by light. Fast speeds, aperture, flash contacts and film transport are not tested.",
	}
}

// signed prints stops with their sign: "+0.27", "−0.05".
func signed(x float64) string {
	return strings.Replace(fmt.Sprintf("%+.2f", x), "-", "−", 1)
}
