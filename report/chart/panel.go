package chart

import (
	"math"

	"earshot/dsp/describe"
)

// Look shows a stretch of a clip, between two times in s, in so many columns. It is
// asked for what is drawn and nothing else.
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

// decibelsShown is the most that is drawn of what lies under the loudest, dB, and
// leastShown the least, so that noise alone does not fill a panel.
const decibelsShown, leastShown = 60.0, 25.0

// underNoise is how far under the clip's noise the level is drawn from, dB, so that a
// quiet room is a thin band, and what is a little louder a thicker one.
const underNoise = 2

// scale is what the height of a panel means: the sample value that reaches its edge,
// and the levels, in dBFS, of its middle line and its edge.
type scale struct {
	full           float64
	floor, loudest float64
}

// scaleOf is the scale that shows firings of a usual loudness among these in full, over
// a noise in dBFS, nil for digital silence.
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
