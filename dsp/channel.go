package dsp

import (
	"math"

	"earshot/dsp/internal/num"
)

// channel listens to one channel of the clip.
type channel struct {
	highpass *highpass
	ears     *earFilter
	signal   []float64 // conditioned, from hop base on
	heard    []Transient
	contrast float64 // sum of the rises, to choose a channel by
	loud     float64 // level of the transient that masks most by now, dBFS
	loudAt   float64 // and its onset

	described, describedAt float64 // the same of the last that stood out by itself
}

// audible is how far, as a power ratio, a transient must rise above the noise floor
// to be worth describing: 9 dB. For white noise in hops of 24 samples that comes by
// chance less than once in a year.
const audible = 8

// describe turns the pending triggers up to hop end into transients, on every
// channel, but for those that hardly rise above the noise floor.
func (l *listener) describe(end int64) {
	for len(l.pending) > 0 && l.pending[0].at <= end {
		at, next := l.pending[0].at, int64(math.MaxInt64)
		if len(l.pending) > 1 {
			next = l.pending[1].at
		}
		if l.energyAt(l.loudest(at, min(next, at+l.hops(levelTime)))) > audible*l.pending[0].floor {
			v := l.view(at, next)
			for c := range l.channels {
				l.channels[c].describe(v, l.spectra, l.picker)
			}
		}
		l.last = at
		l.pending = l.pending[1:]
	}
}

// loudest is the loudest hop from hop at to before hop end, as far as is held.
func (l *listener) loudest(at, end int64) int64 {
	loudest := at
	for h := at; h < min(end, l.base+int64(len(l.energy))); h++ {
		if l.energyAt(h) > l.energyAt(loudest) {
			loudest = h
		}
	}
	return loudest
}

// energyAt is the mean square of a hop that is held.
func (l *listener) energyAt(hop int64) float64 { return l.energy[hop-l.base] }

// view says which samples to look at for one transient, as indices into the
// signal that an ear holds, and where those lie in the clip.
type view struct {
	origin         float64 // index 0 in the clip
	from, trigger  int     // the pick begins at from
	attack         int     // and ends here, past the loudest hop of the attack
	level          int     // the level is looked for up to here
	decay, decayTo int
	hop            int
	second         float64 // samples a second
}

func (l *listener) view(at, next int64) view {
	held := l.base + int64(len(l.energy))
	index := func(hop int64) int { return int(min(max(hop, l.base), held)-l.base) * l.hop }
	return view{
		origin:  float64(l.base * int64(l.hop)),
		from:    index(max(at-l.hops(beforeTime), l.last+2)),
		trigger: index(at),
		attack:  index(l.loudest(at, min(next, at+l.hops(attackTime))) + 2),
		level:   index(min(at+l.hops(levelTime), max(next, at+1))),
		decay:   index(at + l.hops(decayFrom)),
		decayTo: index(at + l.hops(decayTo)),
		hop:     l.hop,
		second:  float64(l.Rate),
	}
}

func (e *channel) describe(v view, spectra *spectrometer, p *picker) {
	t := Transient{Onset: float64(v.trigger), U: float64(v.hop) / math.Sqrt(12)}
	t.Level = num.Level(loudestHop(e.signal[min(v.trigger, v.level):v.level], v.hop))
	described := e.standsOut(t.Level, v.origin+t.Onset, v.second)
	if described {
		if onset, u, ok := p.pick(e.signal[v.from:v.attack]); ok {
			t.Onset, t.U = float64(v.from)+onset, math.Max(u, 1/math.Sqrt(12))
		}
	}
	k := int(math.Round(t.Onset))
	quiet := max(0, k-v.hop/2)
	t.Rise = t.Level - num.Level(num.MeanSquare(e.signal[v.from:max(v.from, quiet)]))
	t.Decay = t.Level - num.Level(num.MeanSquare(e.signal[v.decay:v.decayTo]))
	t.Onset += v.origin
	if described {
		n := spectra.len()
		t.Spectrum = spectra.measure(e.signal[k:min(k+n, len(e.signal))], e.signal[max(0, quiet-n):quiet])
	}
	e.contrast += t.Rise
	e.heard = append(e.heard, t)
}

// Fading is how fast what follows a sound of itself is taken to die away, in dB a
// second: its own parts, and its echoes. It is the decay of a small furnished
// room, 0.2 s for 60 dB.
const Fading = 300

// fadingFast is how fast what a transient leaves is taken to die away here, on the
// side of too many descriptions: a closing 1/30 s after its opening must get one.
const fadingFast = 2 * Fading

// A transient is worth a spectrum if it stands out by so much over what an earlier
// one leaves, in dB, or is so little weaker than one with a spectrum so shortly
// before, in s, that it may be another part of the same sound, and the loudest of
// its parts another time. The beats of an escapement are neither.
const (
	standingOut = 5
	partWeaker  = 10
	partAfter   = 0.012
)

// standsOut tells whether a transient of a level at an onset does so, and remembers
// it for those that follow.
func (e *channel) standsOut(level, onset, second float64) bool {
	left := e.loud - fadingFast*(onset-e.loudAt)/second
	if level > left || e.heard == nil {
		e.loud, e.loudAt = level, onset
	}
	if e.heard == nil || level > left+standingOut {
		e.described, e.describedAt = level, onset
		return true
	}
	return onset-e.describedAt < partAfter*second && level > e.described-partWeaker
}

// loudestHop is the largest mean square of any hop of x, all of x if it is shorter.
func loudestHop(x []float64, hop int) float64 {
	if len(x) < hop {
		return num.MeanSquare(x)
	}
	loudest := 0.0
	for i := 0; i+hop <= len(x); i += hop / 2 {
		loudest = max(loudest, num.MeanSquare(x[i:i+hop]))
	}
	return loudest
}
