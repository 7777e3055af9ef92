package report

import (
	"fmt"
	"math"
	"slices"

	"earshot/report/words"
	"earshot/shutter"
)

// Explanation is why there is a firing, or why there is none at a time of a clip.
// Evidence is in natural logarithms of odds, + for a firing.
type Explanation struct {
	File       string      `json:"file"`
	Firing     *int        `json:"firing"` // index into the record's firings; nil where a time was asked about
	At         float64     `json:"at_s"`
	Heading    string      `json:"heading"`
	Candidates []Candidate `json:"candidates"` // the likeliest first
	Notes      []string    `json:"notes"`
	Sounds     []Nearby    `json:"sounds"` // in time order

	// Leads is by how much later than firings are timed the ends of candidates are marked,
	// those of openings and of closings, s.
	Leads [2]float64 `json:"-"`
}

// Candidate is a pair of sounds weighed as a firing; Close is nil where nothing closed it.
type Candidate struct {
	Open     float64    `json:"open_s"` // the onset of its loudest part
	Close    *float64   `json:"close_s"`
	Evidence []Evidence `json:"evidence"`
	Total    float64    `json:"total_ln_odds"`
	Why      string     `json:"why"` // what became of it
}

// Evidence is one thing that speaks for a firing or against it.
type Evidence struct {
	Weight float64 `json:"ln_odds"`
	What   string  `json:"what"`
}

// Nearby is a sound near what is explained.
type Nearby struct {
	At    float64 `json:"at_s"`
	Level float64 `json:"level_dbfs"`
	Over  float64 `json:"over_db"` // what came before it
	Is    string  `json:"is"`      // "opening of firing 3"; empty for a sound in no firing
}

// ExplainFiring is why the i-th firing of the document is one.
func ExplainFiring(d Document, i int, e shutter.Explanation) Explanation {
	f := d.Firings[i]
	x := newExplanation(d.Clips[f.Clip], e)
	x.Firing = &i
	x.Heading = fmt.Sprintf("Firing %d of %s, opened at %.3f s%s", i+1, x.File, f.Open, f.AtWords())
	x.Notes = slices.Insert(x.Notes, 0, d.placing(f))
	return x
}

// ExplainTime says why there is no firing at a time of a clip, or which firing is there.
func ExplainTime(d Document, clip int, e shutter.Explanation) Explanation {
	x := newExplanation(d.Clips[clip], e)
	x.Heading = fmt.Sprintf("%s at %.3f s", x.File, e.At)
	return x
}

func newExplanation(c Clip, e shutter.Explanation) Explanation {
	return Explanation{
		File: c.File, At: seconds(e.At), Candidates: each(e.Candidates, newCandidate), Notes: each(e.Notes, same), Leads: e.Leads,
		Sounds: each(e.Sounds, func(s shutter.Nearby) Nearby {
			return Nearby{seconds(s.At), round(s.Level, 2), round(s.Over, 2), s.Is}
		}),
	}
}

func newCandidate(c shutter.Candidate) Candidate {
	return Candidate{
		Open: seconds(c.Open), Close: some(c.Close, 7, !math.IsInf(c.Close, 1)), Total: round(c.Total(), 3), Why: c.Why,
		Evidence: each(c.Evidence, func(e shutter.Evidence) Evidence { return Evidence{round(e.Weight, 3), e.What} }),
	}
}

// placing says what became of a firing in laying and judging.
func (d Document) placing(f Firing) string {
	place := "placed at no speed"
	if f.Marked != nil {
		place = "placed at " + words.Mark(*f.Marked)
	}
	if f.Assumed {
		place += ", the nearest mark, since none was told"
	}
	if f.Deviation != nil && !f.StayedOpen() {
		place += ", " + shutter.DeviationText(*f.Deviation)
	}
	if f.Judged {
		return place + "; counted"
	}
	return place + "; not counted: " + f.Excuse()
}

// Sum is all the evidence together, as one line more; none where there is no evidence.
func (c Candidate) Sum() []Evidence {
	if len(c.Evidence) == 0 {
		return nil
	}
	return []Evidence{{c.Total, "together: above 0 a firing is likelier than not"}}
}

// Words prints evidence to a tenth with its sign: "+2.0", "−0.8", "0.0".
func (e Evidence) Words() string {
	size := fmt.Sprintf("%.1f", math.Abs(e.Weight))
	switch {
	case size == "0.0":
		return size
	case e.Weight < 0:
		return "−" + size
	}
	return "+" + size
}

// SoundLetter is what the i-th of the sounds told of is called, in words and pictures.
func SoundLetter(i int) string { return string(rune('a' + i)) }
