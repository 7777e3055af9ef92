package dsp

import (
	"math"

	"earshot/dsp/internal/num"
)

// minSide is the fewest samples on either side of an onset from which a power
// can be told.
const minSide = 4

// PickOnset finds where in x the sound changes from one noise to a louder one.
// It returns the onset as an index into x, fractional, and its standard
// uncertainty in samples. x should hold one onset: its start in the sound
// before, its end no later than the loudest part of the new one. ok is false
// where x is too short or does not get louder.
//
// For an onset at k, x[:k] and x[k:] are taken for Gaussian noises of different
// power, and AIC(k) = k·ln var(x[:k]) + (N−k)·ln var(x[k:]) [Maeda 1985, with
// N−k−1 there]. The mean is not estimated: x has passed a high-pass. exp(−ΔAIC/2)
// is the Akaike weight, which makes the pick the mean of a probability over k
// and its width the uncertainty.
func PickOnset(x []float64) (onset, u float64, ok bool) {
	return newPicker(len(x)).pick(x)
}

// picker picks onsets, one after the other, in storage of its own.
type picker struct{ aic []float64 }

func newPicker(n int) *picker { return &picker{aic: make([]float64, 0, n)} }

func (p *picker) pick(x []float64) (onset, u float64, ok bool) {
	if len(x) < 2*minSide {
		return 0, 0, false
	}
	p.aic = akaike(p.aic[:0], x)
	least := 0
	for i, a := range p.aic {
		if a < p.aic[least] {
			least = i
		}
	}
	if !louderAfter(x, least+minSide) {
		return 0, 0, false
	}
	mean, u := weigh(p.aic, least)
	return mean + minSide, u, true
}

// akaike appends AIC(k) for k = minSide … len(x)−minSide to dst.
func akaike(dst, x []float64) []float64 {
	total, before := 0.0, 0.0
	for _, v := range x {
		total += v * v
	}
	n := len(x)
	for k, v := range x[:n-minSide+1] {
		if k >= minSide {
			b, a := float64(k), float64(n-k)
			dst = append(dst, b*math.Log(before/b+num.Silence)+a*math.Log(math.Max(total-before, 0)/a+num.Silence))
		}
		before += v * v
	}
	return dst
}

// weigh returns mean and standard deviation of the Akaike weights, as indices into aic.
func weigh(aic []float64, least int) (mean, sd float64) {
	const negligible = 60 // exp(−30)
	var w0, w1, w2 float64
	for i, a := range aic {
		d := a - aic[least]
		if d > negligible {
			continue
		}
		w, k := math.Exp(-d/2), float64(i-least)
		w0 += w
		w1 += w * k
		w2 += w * k * k
	}
	mean = w1 / w0
	return float64(least) + mean, math.Sqrt(math.Max(w2/w0-mean*mean, 0))
}

func louderAfter(x []float64, k int) bool {
	return num.MeanSquare(x[k:]) > num.MeanSquare(x[:k])
}
