package chart

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"

	"earshot/report"
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

// NewFirings works out the pictures of a document's firings, and looks at the sound of
// each by look, whose error it returns, wrapped.
func NewFirings(d report.Document, look Look) (Firings, error) {
	name, number := d.Title()
	f := Firings{Title: name, Number: number, Date: words.Date(d.Made), Counts: counts(d), Recordings: recordings(d), strips: strips(d)}
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

// columns is how many panels of a strip stand side by side: all where they have room, or
// else about as many in each row.
func (s Strip) columns() int {
	n := len(s.Panels)
	rows := (n + mostColumns - 1) / mostColumns
	return max((n+rows-1)/rows, fewestColumns)
}

// Pages is how many pictures there are, at least one.
func (f Firings) Pages() int { return max(1, len(f.pages)) }

// Page is one of the pictures, the first being 0, as PNG or SVG.
func (f Firings) Page(i int, format Format) ([]byte, error) {
	p := firingsPage{Firings: f, letters: newLetters(), number: i}
	if len(f.pages) > 0 {
		p.rows = f.pages[i]
	}
	return recovered(func() ([]byte, error) { return drawn(p, format) })
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

// wrapNotes breaks the notes of panels of a width into lines; one that all of them share
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
			p.lines = append(p.lines, l.wrap(l.style(noteSize, ink), width, n, most)...)
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
