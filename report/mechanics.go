package report

import (
	"fmt"
	"slices"

	"earshot/shutter"
	"earshot/shutter/judge"
)

// Blades is how an opening or a closing sounded; Strength and Drawn are nil where
// there were too few others to compare with.
type Blades struct {
	Level    float64  `json:"level_dbfs"`  // of its loudest half millisecond
	Strength *float64 `json:"strength_db"` // by how much it is louder than the median of its clip
	Lead     *float64 `json:"lead_s"`      // mean time by which what is heard of it comes before its loudest part
	Drawn    *float64 `json:"drawn"`       // how many times the median of its clip that is
}

// Falter is a stretch of a buzz in which the escapement stood still and went on.
type Falter struct {
	Start  float64 `json:"start_s"` // after the opening
	Length float64 `json:"length_s"`
}

// Line is how the speeds lie against each other.
type Line struct {
	Escapement float64 `json:"escapement_stops"` // that the speeds with buzz lie above the others by; 0 where that is within U95
	Tilt       float64 `json:"tilt_stops"`       // a stop of the dial; + is slower at slower speeds
}

// Residual is how far a speed lies off the line of the others.
type Residual struct {
	Stops float64 `json:"stops"` // + is slow
	Time  float64 `json:"s"`
	U95   float64 `json:"u95_stops"`
}

// newBlades is nil where nothing was measured.
func newBlades(b shutter.Blades) *Blades {
	if b.Level == 0 {
		return nil
	}
	compared := b.Strength != 0 || b.Drawn != 0
	return &Blades{Level: round(b.Level, 2), Strength: some(b.Strength, 2, compared), Lead: some(b.Lead, 5, b.Lead > 0), Drawn: some(b.Drawn, 3, b.Drawn > 0)}
}

func newFalter(f shutter.Falter) Falter { return Falter{round(f.Start, 4), round(f.Length, 4)} }

// newLine is nil where there are too few speeds for one.
func newLine(l judge.Line) *Line {
	if !l.Known {
		return nil
	}
	return &Line{stops(l.Escapement), stops(l.Tilt)}
}

// newResidual is nil where there is no line of others.
func newResidual(r judge.Residual) *Residual {
	if !r.Known {
		return nil
	}
	return &Residual{stops(r.Stops), seconds(r.Time), stops(r.U95)}
}

// BeatWords says how many beats a second the escapement made at a speed: "214", or "231
// → 198" from the start of a firing to its end; empty where none were counted.
func (d Document) BeatWords(s Speed) string {
	var rates, early, late []float64
	for _, i := range s.Firings {
		if z := d.Firings[i].Buzz; z.Rate != nil {
			rates = append(rates, *z.Rate)
			if z.Early != nil && z.Late != nil {
				early, late = append(early, *z.Early), append(late, *z.Late)
			}
		}
	}
	switch {
	case len(rates) == 0:
		return ""
	case 2*len(early) <= len(rates):
		return fmt.Sprintf("%.0f", middle(rates))
	}
	return fmt.Sprintf("%.0f → %.0f", middle(early), middle(late))
}

// middle is the upper median of one value or more.
func middle(x []float64) float64 {
	return slices.Sorted(slices.Values(x))[len(x)/2]
}
