package shutter

import (
	"math"

	"earshot/dsp"
	"earshot/dsp/describe"
)

// Blades is how an opening or a closing sounded: by itself, and against those of the
// other firings of its clip.
type Blades struct {
	Level float64 // of its loudest half millisecond, dBFS; 0 where it was not measured
	Lead  float64 // s by which, in the mean, what is heard of it comes before that; 0 where none was told

	// Strength is by how much it is louder than the median of its clip, dB, and Drawn
	// how many times as long its lead is. Both are 0 where there are too few to compare
	// with, and Drawn where most of them have no lead that could be told.
	Strength, Drawn float64

	after float64 // of an opening, s from the onset to the loudest half millisecond
}

const (
	fewestBlades   = 3      // of a clip from which one can be told to be unlike the others
	shortestStroke = 0.0005 // s of the median: what is less is no stroke to be drawn out
	leadClear      = 0.1    // s from the opening on after which it no longer hides how a closing begins
	bounceUnder    = 12     // dB under the closing: what comes weaker after it is no bounce
)

// attend listens again to every firing that closed and lacks nothing: how its blades
// struck, and to what lies between.
func (r *room) attend(src dsp.Source, firings []Firing) error {
	for i := range firings {
		f := &firings[i]
		if !f.Closed || f.Unfit != "" {
			continue
		}
		if err := r.strikes(src, f); err != nil {
			return err
		}
		if err := r.listenBetween(src, f); err != nil {
			return err
		}
	}
	everyBeat(firings)
	missStrikes(firings)
	compareBlades(firings, func(f *Firing) *Blades { return &f.Opening })
	compareBlades(firings, func(f *Firing) *Blades { return &f.Closing })
	return nil
}

// Levelled takes from the firings how their blades compare with each other and whether
// they bounced: for a clip whose recorder turned itself down at loud sounds, and up
// again, which makes all of that its own doing as much as the blades'.
func Levelled(firings []Firing) {
	for i := range firings {
		f := &firings[i]
		for _, b := range []*Blades{&f.Opening, &f.Closing} {
			b.Strength, b.Drawn = 0, 0
		}
		f.Bounce = 0
	}
}

// strikes listens to the opening and the closing. The mirror that returns over the
// second curtain is no bounce.
func (r *room) strikes(src dsp.Source, f *Firing) error {
	half := r.h.Samples(openingHeard(f))
	open, err := describe.ListenToStrike(src, r.h.Channel, r.h.Samples(f.Open), math.Inf(1), half)
	if err != nil {
		return err
	}
	close, err := describe.ListenToStrike(src, r.h.Channel, r.h.Samples(f.Close), half, math.Inf(1))
	if err != nil {
		return err
	}
	f.Opening = Blades{Level: open.Level, Lead: r.h.Seconds(open.Lead), after: r.h.Seconds(open.After)}
	f.Closing = Blades{Level: close.Level}
	if f.Duration() >= leadClear {
		f.Closing.Lead = r.h.Seconds(close.Lead)
	}
	if r.kind == Leaf && close.Again > 0 && close.AgainLevel > close.Level-bounceUnder {
		f.Bounce = r.h.Seconds(close.Again)
	}
	return nil
}

// missStrikes takes for not measured the openings that were listened to for less long than
// one of the clip takes to strike: where a firing is so fast, what was heard is its start.
func missStrikes(firings []Firing) {
	var after []float64
	for i := range firings {
		if b := &firings[i].Opening; b.Level != 0 {
			after = append(after, b.after)
		}
	}
	strikes := median(after)
	for i := range firings {
		if f := &firings[i]; f.Opening.Level != 0 && openingHeard(f) < strikes {
			f.Opening = Blades{}
		}
	}
}

// openingHeard is how long an opening is listened to, s: half of the firing.
func openingHeard(f *Firing) float64 { return f.Duration() / 2 }

// compareBlades fills in how the openings, or the closings, of a clip compare with
// their median.
func compareBlades(firings []Firing, of func(*Firing) *Blades) {
	var levels, leads []float64
	for i := range firings {
		if b := of(&firings[i]); b.Level != 0 {
			levels = append(levels, b.Level)
			if b.Lead > 0 {
				leads = append(leads, b.Lead)
			}
		}
	}
	if len(levels) < fewestBlades {
		return
	}
	level, lead := median(levels), median(leads)
	known := 2*len(leads) >= len(levels) && lead >= shortestStroke
	for i := range firings {
		b := of(&firings[i])
		if b.Level == 0 {
			continue
		}
		b.Strength = b.Level - level
		if known {
			b.Drawn = b.Lead / lead
		}
	}
}
