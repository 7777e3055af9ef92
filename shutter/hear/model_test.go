package hear

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"earshot/dsp"
)

// kind is a movement as it sounds: it is loudest in one band, and falls off about it.
type kind int

const (
	anOpening kind = 3
	aClosing  kind = 9
	aMirror   kind = 6
)

// strike is a sound of a kind, 40 dB over what was before it, that differs from the
// others of its kind by a decibel or so.
func strike(rng *rand.Rand, at float64, k kind) sound {
	s := sound{at: at, level: -20 + rng.NormFloat64(), rise: 40, prominence: 40, decay: 20, spectrum: new(dsp.Spectrum)}
	for b := range dsp.NumBands {
		s.spectrum.Bands[b] = float32(s.level - 3*math.Abs(float64(b)-float64(k)) + rng.NormFloat64())
		s.spectrum.Noise[b] = -90
	}
	return s
}

// struck is a room with the sounds in time order, and the firings of those that open
// and close a shutter, in time order too.
func struck(sounds []sound, firings [][2]float64) (*recordedClip, []pair) {
	slices.SortFunc(sounds, func(a, b sound) int { return cmp.Compare(a.at, b.at) })
	at := func(t float64) int {
		return slices.IndexFunc(sounds, func(s sound) bool { return s.at == t })
	}
	var set []pair
	for _, f := range firings {
		set = append(set, pair{open: at(f[0]), close: at(f[1]), span: f[1] - f[0]})
	}
	return &recordedClip{sounds: sounds}, set
}

// fired are n firings 3 s apart, each with what comes the given times before its opening.
func fired(rng *rand.Rand, n int, before func(i int) []sound) (sounds []sound, firings [][2]float64) {
	for i := range n {
		open := 3*float64(i+1) + 0.3*rng.Float64()
		sounds = append(sounds, strike(rng, open, anOpening), strike(rng, open+0.25, aClosing))
		firings = append(firings, [2]float64{open, open + 0.25})
		for _, s := range before(i) {
			s.at += open
			sounds = append(sounds, s)
		}
	}
	return sounds, firings
}
