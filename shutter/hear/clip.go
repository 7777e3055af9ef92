package hear

import (
	"context"

	"earshot/dsp"
	"earshot/dsp/quality"
	"earshot/shutter"
	"earshot/shutter/hear/recording"
	"earshot/shutter/hear/timing"
)

// Options are what is told of a clip before it is heard.
type Options struct {
	Kind shutter.Kind // how the shutter is built
	Clip int          // index of the clip among those of its lens, which its firings carry
}

// Heard is what was heard in one clip.
type Heard struct {
	Firings []shutter.Firing // in time order
	Alike   bool             // the openings sound like the closings
	Account *Account         // what the firings rest on

	// Hearing is all that was heard, firings or not, and Quality how the clip was
	// recorded. Hearing is large: who keeps what was heard of many clips lets go of it.
	Hearing *dsp.Hearing
	Quality *quality.Quality

	// Nothing says why no firing can have been heard; nil where sounds were heard, be
	// they firings or not.
	Nothing *Nothing

	clip    int
	unheard unheard
}

// Clip hears one clip, from samples to firings. It listens to src once, then reads few
// places again: it measures how the clip was recorded, finds the firings and times them.
// What the recording does to their onsets is part of their uncertainty, and what a
// recorder that turned itself down did to how loud they are is taken from them. It returns
// the error of src, wrapped, or that of ctx soon after it is done.
func Clip(ctx context.Context, src dsp.Source, o Options) (Heard, error) {
	src = recording.Until(ctx, src)
	h, err := dsp.Listen(src)
	if err != nil {
		return Heard{}, err
	}
	q, err := quality.Measure(h, src)
	if err != nil {
		return Heard{}, err
	}
	heard, err := find(ctx, h, src, o)
	if err != nil {
		return Heard{}, err
	}
	timing.Smear(heard.Firings, q.Smear())
	if q.Recovery > 0 {
		timing.Levelled(heard.Firings)
	}
	clip := recording.Of(h, src)
	if err := q.HearClicks(h, src, clip.Frames(ends(heard.Firings))); err != nil {
		return Heard{}, err
	}
	heard.Hearing, heard.Quality, heard.Nothing = h, q, whyNothing(h)
	return heard, nil
}

// ends are the times of the openings and closings, s.
func ends(firings []shutter.Firing) (at []float64) {
	for _, f := range firings {
		at = append(at, f.Open)
		if f.Closed {
			at = append(at, f.Close)
		}
	}
	return at
}
