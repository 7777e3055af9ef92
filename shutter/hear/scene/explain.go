package scene

import (
	"context"

	"earshot/dsp"
)

// Recording is what is heard of a clip before anything is made of it.
type Recording struct {
	Levels   *dsp.Levels
	Step     float64    // s that a value of the levels lasts
	Spectra  []Spectral // of its sudden sounds, in time order
	Curtains bool       // the shutter is two curtains, which sound alike
}

// Sound is a sudden sound of the clip.
type Sound struct {
	At float64 // onset of its loudest part, s
}

// Term is one thing that speaks for a firing, or against it: a weight times a feature, as a
// logarithm of odds.
type Term struct {
	Name, Means string
	Weight      float64
}

// Firing is an opening and a closing, indices of sounds.
type Firing struct {
	Open, Close int
	P           float64 // probability that it is a firing, and these its ends
	Terms       []Term  // in the order of the features; those of 0 left out
}

// Explanation is what the sounds of a clip are.
type Explanation struct {
	Sounds  []Sound  // in time order
	Firings []Firing // in time order; none where the clip is more likely of something else
	P       float64  // probability that the firings are a shutter's
}

// likely is the probability from which on an arc is taken for a firing at all.
const likely = 0.5

// Explain explains a clip. It ends early, with nothing heard, once ctx is done.
func Explain(ctx context.Context, r Recording) Explanation {
	return explain(ctx, r, &arcWeights, &oddsWeights)
}

func explain(ctx context.Context, r Recording, w *Weights, o *OddsWeights) (x Explanation) {
	if len(r.Levels.Ears[0]) == 0 {
		return x
	}
	c := newClip(ctx, r, w)
	best, p := likeliest(c.ways(ctx, w), o)
	if x.P = p; p >= likely {
		for _, a := range best.arcs {
			if pa := a.p * p; pa >= likely {
				x.Firings = append(x.Firings, Firing{a.open, a.close, pa, a.terms(w)})
			}
		}
	}
	for i := range c.s {
		x.Sounds = append(x.Sounds, c.told(i))
	}
	return x
}

// terms are what an arc weighs, in the order of the features.
func (a *arc) terms(w *Weights) (terms []Term) {
	for i, x := range a.f {
		if v := w[i] * float64(x); v != 0 {
			terms = append(terms, Term{features[i].name, features[i].means, v})
		}
	}
	return terms
}

// told is a sound as others see it.
func (c *clip) told(i int) Sound {
	if s := c.s[i].spectral; s != nil {
		return Sound{s.At}
	}
	return Sound{float64(c.s[i].at) * c.ms / 1000}
}
