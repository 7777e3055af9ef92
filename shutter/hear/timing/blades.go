package timing

import (
	"context"
	"math"

	"earshot/shutter"
	"earshot/shutter/hear/recording"
)

const (
	fewestBlades   = 3      // of a clip from which one can be told to be unlike the others
	shortestStroke = 0.0005 // s of the median: what is less is no stroke to be drawn out
	leadClear      = 0.1    // s from the opening on after which it no longer hides how a closing begins
	bounceUnder    = 12     // dB under the closing: what comes weaker after it is no bounce
)

// Attend listens again to every firing that closed and lacks nothing: how its blades
// struck, and to what lies between.
func Attend(ctx context.Context, clip *recording.Clip, kind shutter.Kind, firings []shutter.Firing) error {
	var after []float64 // s from the onset of each opening that was heard to its loudest half millisecond
	for i := range firings {
		f := &firings[i]
		if !f.Closed || f.Unfit != "" {
			continue
		}
		later, err := strikes(ctx, clip, kind, f)
		if err != nil {
			return err
		}
		if f.Opening.Level != 0 {
			after = append(after, later)
		}
		if err := listenBetween(ctx, clip, f); err != nil {
			return err
		}
	}
	everyBeat(firings)
	missStrikes(firings, shutter.Median(after))
	compareBlades(firings, func(f *shutter.Firing) *shutter.Blades { return &f.Opening })
	compareBlades(firings, func(f *shutter.Firing) *shutter.Blades { return &f.Closing })
	return nil
}

// strikes listens to the opening and the closing, and returns after how many s from its
// onset the opening was loudest. The mirror that returns over the second curtain is no
// bounce.
func strikes(ctx context.Context, clip *recording.Clip, kind shutter.Kind, f *shutter.Firing) (after float64, err error) {
	half := openingHeard(f)
	open, err := clip.Strike(ctx, f.Open, math.Inf(1), half)
	if err != nil {
		return 0, err
	}
	close, err := clip.Strike(ctx, f.Close, half, math.Inf(1))
	if err != nil {
		return 0, err
	}
	f.Opening = shutter.Blades{Level: open.Level, Lead: open.Lead}
	f.Closing = shutter.Blades{Level: close.Level}
	if f.Duration() >= leadClear {
		f.Closing.Lead = close.Lead
	}
	if kind == shutter.Leaf && close.Again > 0 && close.AgainLevel > close.Level-bounceUnder {
		f.Bounce = close.Again
	}
	return open.After, nil
}

// missStrikes takes for not measured the openings that were listened to for less long than
// one of the clip takes to strike, s: where a firing is so fast, what was heard is its start.
func missStrikes(firings []shutter.Firing, strikes float64) {
	for i := range firings {
		if f := &firings[i]; f.Opening.Level != 0 && openingHeard(f) < strikes {
			f.Opening = shutter.Blades{}
		}
	}
}

// openingHeard is how long an opening is listened to, s: half of the firing.
func openingHeard(f *shutter.Firing) float64 { return f.Duration() / 2 }

// compareBlades fills in how the openings, or the closings, of a clip compare with
// their median.
func compareBlades(firings []shutter.Firing, of func(*shutter.Firing) *shutter.Blades) {
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
	level, lead := shutter.Median(levels), shutter.Median(leads)
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
