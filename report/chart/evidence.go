package chart

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"earshot/report"
	"earshot/report/words"
)

// Evidence is a picture of why there is a firing, or why there is none: the sound about
// it, both ends from near, and what speaks for it and against it.
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

// NewEvidence works out the picture of an explanation. It looks at the sound by look,
// whose error it returns, wrapped.
func NewEvidence(d report.Document, x report.Explanation, look Look) (Evidence, error) {
	v := Evidence{
		Title: x.Heading, Date: words.Date(d.Made), Lines: x.Notes, sounds: x.Sounds,
		Recordings: recordings(d),
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

// candidatePanel is the panel of the likeliest pair near a time, of the time alone where
// there is none.
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

// others are the firings of a panel's clip that are counted and nearest to it, but for
// its own.
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
