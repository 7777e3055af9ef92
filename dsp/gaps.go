package dsp

import (
	"math"
	"slices"
)

// gapFinder finds the stretches of digital silence in which samples were lost or
// muted. A quiet sound that is coarser in its steps than in its noise, as in a clip of
// 8 bits, is silent as well at times; it comes to that and leaves it by one step,
// while what is cut off stops at any value. So a stretch counts unless the sound just
// before it or just after it keeps within one step.
type gapFinder struct {
	hop     int64 // samples
	least   int64 // hops of silence that count
	hops    int64
	silent  int64 // hops of silence up to now
	past    [2][]float64
	faded   bool    // the silence under way came by one step
	opening bool    // the first gap begins with the clip, so nothing is known of how it came
	coarse  bool    // a silence that came or went by one step was found
	step    float64 // the smallest magnitude seen beside a silence
	ended   *Gap    // a silence that ended with the last hop
	gaps    []Gap
}

func newGapFinder(f Format, hop int) gapFinder {
	g := gapFinder{hop: int64(hop), step: math.Inf(1)}
	g.least = max(1, int64(gapTime*float64(f.Rate)/float64(hop)))
	for i := range g.past {
		g.past[i] = make([]float64, hop*f.Channels)
	}
	return g
}

// take looks at the next hop, its frames as recorded.
func (g *gapFinder) take(frames []float64) {
	silent := frames[0] == 0 && !slices.ContainsFunc(frames, func(x float64) bool { return x != 0 })
	if g.ended != nil {
		g.settle(g.past[1], frames)
	}
	switch {
	case silent && g.silent == 0:
		g.faded = g.withinAStep(g.past[0], g.past[1])
		g.silent = 1
	case silent:
		g.silent++
	default:
		g.end()
	}
	g.past[0], g.past[1] = g.past[1], g.past[0]
	copy(g.past[1], frames)
	g.hops++
}

// end ends the silence under way, if there is one.
func (g *gapFinder) end() {
	if g.silent >= g.least {
		g.ended = &Gap{Start: (g.hops - g.silent) * g.hop, End: g.hops * g.hop}
	}
	g.silent = 0
}

// settle decides whether the silence that ended is a gap, from what follows it.
func (g *gapFinder) settle(after ...[]float64) {
	if g.faded || g.withinAStep(after...) {
		g.coarse = true
	} else {
		g.opening = g.opening || g.ended.Start == 0
		g.gaps = append(g.gaps, *g.ended)
	}
	g.ended = nil
}

// withinAStep tells whether sound keeps within the smallest magnitude there is. Silence
// alone tells nothing.
func (g *gapFinder) withinAStep(hops ...[]float64) bool {
	largest := 0.0
	for _, hop := range hops {
		for _, x := range hop {
			if a := math.Abs(x); a > 0 {
				largest, g.step = max(largest, a), min(g.step, a)
			}
		}
	}
	const half = 1.5 // halfway to the second step
	return largest > 0 && largest < half*g.step
}

// finish returns the gaps of a clip of so many frames. Silence that the clip begins
// with is none where silence comes by itself.
func (g *gapFinder) finish(frames int64) []Gap {
	if g.ended != nil {
		g.settle(g.past[1])
	}
	if g.end(); g.ended != nil {
		g.settle()
	}
	if g.opening && g.coarse {
		g.gaps = g.gaps[1:]
	}
	if n := len(g.gaps); n > 0 {
		g.gaps[n-1].End = min(g.gaps[n-1].End, frames)
	}
	return g.gaps
}
