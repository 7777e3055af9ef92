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
	At    float64 // onset of its loudest part, s
	Level float64 // of that, dBFS
	Rise  float64 // over what came before, dB

	// UnlikeOpen and UnlikeClose are how unlike the openings and closings of the shutter
	// it is, dB, as the shapes of spectra differ.
	UnlikeOpen, UnlikeClose float64
}

// Term is one thing that speaks for a firing, or against it: a weight times a feature, as a
// logarithm of odds.
type Term struct {
	Name, Means string
	Weight      float64
}

// Firing is an opening and a closing, indices of sounds; Release is the first sound of a
// reflex body before it, or −1.
type Firing struct {
	Open, Close, Release int
	P                    float64 // probability that it is a firing, and these its ends
	Terms                []Term  // in the order of the features; those of 0 left out
}

// Explanation is what the sounds of a clip are.
type Explanation struct {
	Sounds  []Sound  // in time order
	Firings []Firing // in time order; none where the clip is more likely of something else
	P       float64  // probability that the firings are a shutter's
	Lead    float64  // s from the release of a reflex body to the opening; 0 for none
	Apart   float64  // how unlike openings and closings are, dB
	Odds    []Term   // what the whole explanation weighed, be it taken or not
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
	x.P = p
	if len(best.arcs) > 0 {
		for i, v := range best.odds {
			x.Odds = append(x.Odds, Term{odds[i].name, odds[i].means, o[i] * v})
		}
	}
	k := new(class)
	if p >= likely {
		k = c.learn(best.arcs)
		c.hold(k)
		x.Lead, x.Apart = k.lead/1000, unlike(k.open, k.close)
		for _, a := range best.arcs {
			if a.p*x.P < likely {
				continue
			}
			x.Firings = append(x.Firings, Firing{a.open, a.close, a.release, a.p * x.P, a.terms(w)})
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
	s := &c.s[i]
	t := Sound{At: float64(s.at) * c.ms / 1000, Level: s.loud, Rise: s.best, UnlikeOpen: c.unlikeOpen[i], UnlikeClose: c.unlikeClose[i]}
	if s.spectral != nil {
		t.At, t.Level = s.spectral.At, s.spectral.Level
	}
	return t
}
