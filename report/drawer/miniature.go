package drawer

import (
	"fmt"
	"math"
	"strings"

	"earshot/report"
	"earshot/report/chart"
	"earshot/shutter"
)

// The small chart of a lens, in px; the plotted part lies above the labels.
const (
	miniWidth  = 224.0
	miniPlot   = 60.0
	miniLabels = 14.0
	miniEdge   = 4.0 // kept free above and below for what lies beyond
)

// miniature is the small chart of a lens, laid out.
type miniature struct {
	Width, Height       coordinate
	BandTop, BandHeight coordinate
	Mark                coordinate
	Limits              []coordinate
	Dots                []dot
	Means               []meanBar
	Labels              []miniLabel
	Words               string // the same for those who can't see it
}

// coordinate is a length in px, written to a tenth.
type coordinate float64

func (c coordinate) String() string { return fmt.Sprintf("%.1f", float64(c)) }

// dot is a firing; where Beyond, an arrow head with its tip at the edge.
type dot struct {
	X, Y, Tip, Foot coordinate
	Beyond          bool
	Class           string
}

type meanBar struct{ Left, Right, Y coordinate }

type miniLabel struct {
	X, Y coordinate
	Text string
}

// newMiniature lays out the small chart of a record; nil where no speed is known.
func newMiniature(d *report.Document) *miniature {
	if d == nil || len(d.Speeds) == 0 {
		return nil
	}
	f := chart.New(*d)
	// One range for all lenses, so that they compare at a glance.
	reach := max(1, 1.25*f.Service)
	y := func(stops float64) coordinate {
		return coordinate(miniPlot/2 - stops/reach*(miniPlot/2-miniEdge))
	}
	m := &miniature{
		Width: miniWidth, Height: miniPlot + miniLabels, Mark: y(0),
		BandTop: y(f.Good), BandHeight: y(-f.Good) - y(f.Good), Limits: []coordinate{y(f.Service), y(-f.Service)},
	}
	step := miniWidth / float64(len(f.Columns))
	var words []string
	for i, c := range f.Columns {
		x := coordinate(step * (float64(i) + 0.5))
		for j, p := range c.Points {
			m.Dots = append(m.Dots, newDot(p, x+beside(j, len(c.Points)), y, reach))
		}
		if c.Mean != nil {
			at := y(math.Max(-reach, math.Min(reach, c.Mean.Deviation)))
			m.Means = append(m.Means, meanBar{x - 9, x + 9, at})
		}
		m.Labels = append(m.Labels, miniLabel{x, miniPlot + miniLabels - 3, strings.TrimSuffix(c.Marked, " s")})
		words = append(words, columnWords(c))
	}
	m.Words = "Stops off the mark. " + strings.Join(words, ". ")
	return m
}

// beside spreads the firings of a speed a little, in the order fired.
func beside(j, n int) coordinate {
	const apart, widest = 3.5, 15.0
	if n < 2 {
		return 0
	}
	gap := math.Min(apart, widest/float64(n-1))
	return coordinate(gap * (float64(j) - float64(n-1)/2))
}

func newDot(p chart.Point, x coordinate, y func(float64) coordinate, reach float64) dot {
	d := dot{X: x, Y: y(p.Deviation), Class: "uncounted"}
	if p.Judged {
		d.Class = "counted"
	}
	switch {
	case p.Hung || p.Deviation > reach:
		d.Beyond, d.Tip, d.Foot = true, 0.5, 6
	case p.Deviation < -reach:
		d.Beyond, d.Tip, d.Foot = true, miniPlot-0.5, -6
	}
	return d
}

func columnWords(c chart.Column) string {
	words := c.Marked
	if c.Assumed {
		words += " assumed"
	}
	if c.Mean == nil {
		return words + " no mean, " + c.Verdict.String()
	}
	return words + " " + shutter.DeviationText(c.Mean.Deviation) + ", " + c.Verdict.String()
}
