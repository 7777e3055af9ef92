package collage

import (
	"math"

	"earshot/dsp/known"
)

// take is a clip under way: the sounds as they are made, without room, noise and phone.
type take struct {
	draw
	lib     *Library
	rate    float64
	tape    []float64
	fetched map[*float64][]float64 // recordings at the clip's rate
	others  []other
	firings []known.Firing
	slow    float64 // by which the phone's clock makes everything seem longer, a factor
}

// other is another sound, and how loud it is beside the closing of the shutter, which has
// a peak of about 1.
type other struct {
	known.Other
	peak float64
	own  bool // part of a firing, which doesn't cover it
}

func (l *Library) take(d draw, rate float64) *take {
	return &take{draw: d, lib: l, rate: rate, fetched: map[*float64][]float64{}, slow: 1 + d.between(-1, 1)*1e-4}
}

// fetch is s at the clip's rate.
func (t *take) fetch(s sound) []float64 {
	key := &s.x[0]
	if _, ok := t.fetched[key]; !ok {
		t.fetched[key] = resample(s.x, s.rate, t.rate)
	}
	return t.fetched[key]
}

// play lays x on the tape from about s on, gain times, and returns when exactly it begins.
func (t *take) play(x []float64, s, gain float64) float64 {
	at := max(0, int(math.Round(s*t.rate)))
	t.upTo(at + len(x))
	for i, v := range x {
		t.tape[at+i] += gain * v
	}
	return float64(at) / t.rate
}

// upTo makes the tape at least n samples long.
func (t *take) upTo(n int) {
	if n > len(t.tape) {
		t.tape = append(t.tape, make([]float64, n-len(t.tape))...)
	}
}

// heard notes another sound.
func (t *take) heard(kind string, start, end, peak float64) {
	t.others = append(t.others, other{Other: known.Other{Kind: kind, Start: start, End: end}, peak: peak})
}

// part notes a sound that belongs to a firing but is neither its opening nor its closing.
func (t *take) part(kind string, start, end, peak float64) {
	t.heard(kind, start, end, peak)
	t.others[len(t.others)-1].own = true
}

// recording plays one of a role's recordings from s on, with a peak of gain, and returns
// when it ends.
func (t *take) recording(r role, s, gain float64) float64 {
	x := t.fetch(pick(t.draw, t.lib.sounds[r]))
	gain /= max(peak(x), 1e-9)
	return t.play(x, s, gain) + float64(len(x))/t.rate
}
