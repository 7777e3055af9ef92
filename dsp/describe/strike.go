package describe

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"

	"earshot/dsp"
	"earshot/dsp/internal/num"
)

// Times around a strike, in s.
const (
	strikeHop     = 0.0005 // resolution
	strikeEarlier = 0.004  // the loudest part is looked for from so long before the time told
	strikeLater   = 0.025  // to so long behind, or less where something else follows
	strikeLead    = 0.025  // what comes so long before the loudest part belongs to it
	strikeBefore  = 0.02   // and what came before that is around it
	againFrom     = 0.008  // a bounce comes within so long; what comes later is another sound,
	againTo       = 0.08   // up to so long
	againOver     = 0.003  // which stands out of what came so long before it
)

// leadOver is by how much, as a power ratio, what belongs to a strike stands out of
// the loudest of what comes before it: 6 dB.
const leadOver = 4

// againRise is by how much, as a power ratio, another sound stands out of what came
// before it: 8 dB.
const againRise = 6.3

// Strike is how one movement of a body sounded that ends in a strike.
type Strike struct {
	Level float64 // of its loudest half millisecond, dBFS
	Lead  float64 // mean time by which what is heard of it comes before that, samples
	After float64 // from the time told to that, samples
	Again float64 // from that to the loudest sound soon after that stands out, samples; 0 for none

	AgainLevel float64 // level of that sound, dBFS
}

// ListenToStrike describes the strike at about a time, in samples. Nothing else may strike for
// the given numbers of samples before and behind it. Sound counts by the fourth root of its
// power, so that a weak beginning counts beside a loud end.
func ListenToStrike(src dsp.Source, channel int, at, before, behind float64) (Strike, error) {
	rate := float64(src.Format().Rate)
	hop := math.Max(1, math.Round(strikeHop*rate))
	hops := func(s float64) int { return int(s * rate / hop) }
	origin := hops(strikeBefore + strikeLead + strikeEarlier)
	n := origin + 1 + within(hops(strikeLater+againTo), behind/hop)
	x, err := dsp.Excerpt(src, channel, int64(at)-int64(origin)*int64(hop), n*int(hop))
	if err != nil {
		return Strike{}, fmt.Errorf("listening to how hard something struck: %w", err)
	}
	p := make([]float64, n)
	for i := range p {
		p[i] = num.MeanSquare(x[i*int(hop) : (i+1)*int(hop)])
	}
	earliest := origin - within(hops(strikeEarlier), before/hop)
	loudest := earliest + floats.MaxIdx(p[earliest:min(origin+hops(strikeLater)+1, n)])
	s := Strike{Level: num.Level(p[loudest]), Lead: hop * lead(p[:loudest+1], within(hops(strikeLead), before/hop)), After: hop * float64(loudest-origin)}
	if i := again(p, loudest+hops(againFrom), min(loudest+hops(againTo), n-1), hops(againOver)); i > 0 {
		s.Again, s.AgainLevel = float64(i-loudest)*hop, num.Level(p[i])
	}
	return s, nil
}

// within is n, or what of limit is whole where that is less.
func within(n int, limit float64) int { return int(math.Min(float64(n), limit)) }

// lead is the mean time by which values come before the last one. It takes those of the last
// n values that stand out of the values before them.
func lead(p []float64, n int) float64 {
	first := len(p) - 1 - n
	over := leadOver * slices.Max(p[:first])
	var sum, weight float64
	for i := first; i < len(p); i++ {
		if p[i] > over {
			w := math.Pow(p[i]-over, 0.25)
			sum += w * float64(len(p)-1-i)
			weight += w
		}
	}
	if weight == 0 {
		return 0
	}
	return sum / weight
}

// again is the loudest value from one to another that stands out of those before it,
// 0 for none.
func again(p []float64, from, to, before int) int {
	best := 0
	for i := from; i <= to; i++ {
		if p[i] > againRise*slices.Max(p[i-before:i]) && (best == 0 || p[i] > p[best]) {
			best = i
		}
	}
	return best
}
