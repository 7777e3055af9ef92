package dsp

import "math"

// describe turns the pending triggers up to hop end into transients, on every channel.
func (l *listener) describe(end int64) {
	for len(l.pending) > 0 && l.pending[0] <= end {
		at, next := l.pending[0], int64(math.MaxInt64)
		if len(l.pending) > 1 {
			next = l.pending[1]
		}
		v := l.view(at, next)
		for c := range l.ears {
			l.ears[c].describe(v, l.spectra, l.picker)
		}
		l.last = at
		l.pending = l.pending[1:]
	}
}

// view says which samples to look at for one transient, as indices into the
// signal that an ear holds, and where those lie in the clip.
type view struct {
	origin         float64 // index 0 in the clip
	from, trigger  int     // the pick begins at from
	attack         int     // and ends here, past the loudest hop of the attack
	level          int     // the level is looked for up to here
	decay, decayTo int
	hop            int
}

func (l *listener) view(at, next int64) view {
	held := l.base + int64(len(l.energy))
	index := func(hop int64) int { return int(min(max(hop, l.base), held)-l.base) * l.hop }
	loudest := at
	for h := at; h < min(at+l.hops(attackTime), next, held); h++ {
		if l.energy[h-l.base] > l.energy[loudest-l.base] {
			loudest = h
		}
	}
	return view{
		origin:  float64(l.base * int64(l.hop)),
		from:    index(max(at-l.hops(beforeTime), l.last+2)),
		trigger: index(at),
		attack:  index(loudest + 2),
		level:   index(min(at+l.hops(levelTime), max(next, at+1))),
		decay:   index(at + l.hops(decayFrom)),
		decayTo: index(at + l.hops(decayTo)),
		hop:     l.hop,
	}
}

func (e *ear) describe(v view, spectra *spectrometer, p *picker) {
	t := Transient{Onset: float64(v.trigger), U: float64(v.hop) / math.Sqrt(12)}
	if onset, u, ok := p.pick(e.signal[v.from:v.attack]); ok {
		t.Onset, t.U = float64(v.from)+onset, math.Max(u, 1/math.Sqrt(12))
	}
	k := int(math.Round(t.Onset))
	before := meanSquare(e.signal[v.from:max(v.from, k-v.hop/2)])
	t.Level = decibel(loudestHop(e.signal[min(k, v.level):v.level], v.hop))
	t.Rise = t.Level - decibel(before)
	t.Decay = t.Level - decibel(meanSquare(e.signal[v.decay:v.decayTo]))
	quiet := max(0, k-v.hop/2)
	t.Noise = spectra.measure(e.signal[max(0, quiet-spectra.len()):quiet])
	t.Bands = spectra.measure(e.signal[k:min(k+spectra.len(), len(e.signal))])
	t.Onset += v.origin
	e.contrast += t.Rise
	e.heard = append(e.heard, t)
}

// loudestHop is the largest mean square of any hop of x, all of x if it is shorter.
func loudestHop(x []float64, hop int) float64 {
	if len(x) < hop {
		return meanSquare(x)
	}
	loudest := 0.0
	for i := 0; i+hop <= len(x); i += hop / 2 {
		loudest = max(loudest, meanSquare(x[i:i+hop]))
	}
	return loudest
}
