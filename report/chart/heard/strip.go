package heard

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"earshot/report"
	"earshot/report/chart/paper"
	"earshot/report/words"
)

// Strip is firings side by side, all to one scale of time and aligned at their
// openings.
type Strip struct {
	Title, Detail string
	Panels        []Panel
	scale         scale
}

// span is the time that each panel shows, s.
func (s Strip) span() float64 { return s.Panels[0].To - s.Panels[0].From }

// look fills in what the panels show, drawn so wide.
func (s *Strip) look(d report.Document, look Look, width vg.Length) error {
	for i := range s.Panels {
		p := &s.Panels[i]
		columns, err := look(p.Clip, p.From, p.To, int(width.Points()*columnsPerPoint))
		if err != nil {
			return fmt.Errorf("the picture of a firing: %w", err)
		}
		p.columns = columns
	}
	s.scale = scaleOf(s.Panels, d.Clips[s.Panels[0].Clip].Sound.Noise)
	return nil
}

// columnsPerPoint is how finely sound is drawn: 1.5 columns a pixel at 800 px.
const columnsPerPoint = 2

// strips are the strips of a document, first one for each speed. The firings at no speed follow;
// those that come one after another and last about as long share a strip.
func strips(d report.Document) []Strip {
	var all []Strip
	placed := map[int]bool{}
	for _, s := range d.Speeds {
		if len(s.Firings) == 0 {
			continue
		}
		for _, i := range s.Firings {
			placed[i] = true
		}
		strip := newStrip(d, s.Firings)
		strip.Title, strip.Detail = words.Mark(s.Marked), detail(d, s)
		all = append(all, strip)
	}
	for _, run := range unplaced(d, placed) {
		strip := newStrip(d, run)
		strip.Title = "At no speed"
		all = append(all, strip)
	}
	return all
}

func detail(d report.Document, s report.Speed) string {
	said := "exact " + words.ExactMilliseconds(s.Nominal) + " ms"
	switch {
	case s.Mean != nil:
		said += ", measured " + words.Milliseconds(*s.Mean) + " ms"
	case s.Median != nil:
		said += ", median " + words.Milliseconds(s.MedianTime()) + " ms"
	}
	said += ": " + s.Verdict.String()
	if beats := d.BeatWords(s); beats != "" {
		said += "; escapement " + beats + " beats a second"
	}
	if s.Assumed {
		said = "assumed, not told; " + said
	}
	return said
}

// unplaced are the firings at no speed, in runs of about the same duration.
func unplaced(d report.Document, placed map[int]bool) [][]int {
	const about = 1.5 // the longest of a run over its shortest
	var runs [][]int
	shortest, longest := math.Inf(1), 0.0
	for i, f := range d.Firings {
		if placed[i] {
			continue
		}
		if f.Duration != nil {
			shortest, longest = min(shortest, *f.Duration), max(longest, *f.Duration)
		}
		if len(runs) == 0 || longest > about*shortest {
			runs = append(runs, nil)
			shortest, longest = math.Inf(1), 0
			if f.Duration != nil {
				shortest, longest = *f.Duration, *f.Duration
			}
		}
		runs[len(runs)-1] = append(runs[len(runs)-1], i)
	}
	return runs
}

// newStrip lays out firings of a document, one at least, made at one speed or at none.
func newStrip(d report.Document, firings []int) Strip {
	long := stretch(d, firings)
	margin := math.Max(0.2*long, leastMargin)
	var s Strip
	for _, i := range firings {
		p := newPanel(d, i)
		p.From, p.To = p.Open-margin, p.Open+long+margin
		s.Panels = append(s.Panels, p)
	}
	return s
}

// leastMargin is the least time shown before the opening and after the closing, s.
const leastMargin = 0.03

// stretch is the time in s from opening to closing that a strip has room for. It is the longest
// duration, unless that is far from the others, and at least the nominal time.
func stretch(d report.Document, firings []int) float64 {
	const far, unknown = 2.5, 0.5 // over the median; s, where nothing is known
	nominal := 0.0
	if n := d.Firings[firings[0]].Nominal; n != nil {
		nominal = *n
	}
	var times []float64
	for _, i := range firings {
		if f := d.Firings[i]; f.Duration != nil && !f.StayedOpen() {
			times = append(times, *f.Duration)
		}
	}
	if len(times) == 0 {
		if nominal > 0 {
			return nominal
		}
		return unknown
	}
	long := nominal
	for _, t := range times {
		if t <= far*math.Max(middle(times), nominal) {
			long = max(long, t)
		}
	}
	return long
}

// middle is the median, the upper one of an even number; there is one value at least.
func middle(values []float64) float64 {
	return slices.Sorted(slices.Values(values))[len(values)/2]
}

// stripPicture is a strip by itself.
type stripPicture struct {
	Strip
	letters
	width, height vg.Length
}

// DrawStrip draws firings of a document side by side, with opening and closing marked, to
// one scale of time and aligned at their openings: firings of one speed, then. The
// picture has a size in points of 1/72 inch, as PNG or SVG; 100 by 75 a firing and more
// is legible. It reads their sound by look, and returns its error, wrapped.
func DrawStrip(d report.Document, firings []int, look Look, width, height float64, format paper.Format) ([]byte, error) {
	if len(firings) == 0 {
		return nil, errors.New("a strip of no firings can't be drawn")
	}
	p := stripPicture{newStrip(d, firings), newLetters(), vg.Points(width), vg.Points(height)}
	if err := p.look(d, look, p.each()); err != nil {
		return nil, err
	}
	return paper.Recovered(func() ([]byte, error) { return paper.Render(paper.Picture{Size: p.size, Draw: p.draw}, format) })
}

func (p stripPicture) size() (width, height vg.Length) { return p.width, p.height }

// each is the width of a panel.
func (p stripPicture) each() vg.Length {
	n := vg.Length(len(p.Panels))
	return (p.width - columnGap*n) / n
}

func (p stripPicture) draw(c draw.Canvas) {
	c.SetColor(paper.Blank)
	c.Fill(c.Rectangle.Path())
	for i, panel := range p.Panels {
		x := c.Min.X + columnGap/2 + (p.each()+columnGap)*vg.Length(i)
		p.drawPanel(part(c, x, p.each(), c.Min.Y+vg.Points(1), c.Max.Y-vg.Points(1)), panel, p.scale)
	}
}
