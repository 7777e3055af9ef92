package dsp

import (
	"math"
	"math/cmplx"

	"gonum.org/v1/gonum/dsp/fourier"
)

// Times, in s, of two movements so close that they are one sound.
const (
	overlaidBefore = 0.020  // the first begins at most this long before the loudest part of both
	overlaidLeast  = 0.002  // the second follows later than this,
	OverlaidMost   = 0.020  // and sooner than this: 1/60, somewhat slow
	overlaidAfter  = 0.010  // what is looked at of it
	overlaidMargin = 0.0005 // known of each before its start
	overlaidReach  = 2      // hops by which the waveforms may lie elsewhere
)

// Overlaid is what was found of two movements that make one sound.
type Overlaid struct {
	First, Second float64 // where they start, samples from the start of the clip
	U             float64 // standard uncertainty of the time between, samples
	Bias          float64 // the part of U that all found by the same two movements have in common, samples
	Gain          float64 // dB by which both leave less unexplained than either alone
}

// Overlay looks in the sound whose loudest part begins at loudest, in samples, for
// the one movement followed closely by the other, each as it is in the mean of its
// own kind. How loud they are and when they come is told by their powers over time and
// frequency, and then to a fraction of that by their waveforms. ok is false where the
// kinds are too little known, where both explain the sound badly or hardly better than
// one does, or where they do so only at the bounds of what is looked for. It returns the
// error of src, wrapped.
func Overlay(src Source, channel int, first, second Template, loudest float64) (o Overlaid, ok bool, err error) {
	if len(first.powers) == 0 || len(second.powers) == 0 {
		return o, false, nil
	}
	rate := float64(src.Format().Rate)
	before := int(overlaidBefore * rate)
	from := int64(math.Round(loudest)) - int64(2*before)
	x, err := Excerpt(src, channel, from, 2*before+int((OverlaidMost+overlaidAfter)*rate))
	if err != nil {
		return o, false, err
	}
	from += int64(before)
	noise := sliced(x[:before], rate).steadily()
	x = x[before:]
	m := newMixture(sliced(x, rate), noise, first.powers, second.powers)
	least, most := int(math.Round(overlaidLeast/cellHop)), int(math.Round(OverlaidMost/cellHop))
	a, b, left := m.two(least, most)
	if lag := b.at - a.at; lag <= least || lag >= most || math.Min(a.gain, b.gain) <= -loosest {
		return o, false, nil
	}
	alone := m.alone()
	if !m.needsTwo(alone, left) {
		return o, false, nil
	}
	hop := int(math.Round(cellHop * rate))
	t, lag := aligning(x, first.waveform, second.waveform, hop*a.at, hop*(b.at-a.at), overlaidReach*hop)
	// each lies where all of it does, and its start comes sooner or later from shot to shot
	scatter := math.Hypot(first.scatter, second.scatter)
	margin, bias := overlaidMargin*rate, math.Hypot(first.start.Bias, second.start.Bias)
	return Overlaid{
		First: float64(from) + float64(t) + margin, Second: float64(from) + float64(t+lag) + margin,
		U: math.Hypot(math.Hypot(math.Sqrt(2.0/12), scatter), bias), Bias: bias,
		Gain: 10 * math.Log10(alone/left),
	}, true, nil
}

// aligning is the time of the first of two waveforms, and the lag of the second, at
// which both explain most of x, by least squares: within a reach of those told, and
// these where none of the waveforms is in x.
func aligning(x, first, second []float64, t, lag, reach int) (int, int) {
	a, b := products(x, first, len(x)), products(x, second, len(x))
	ab := products(first, second, min(len(first), lag+reach+1))
	aa, bb := energy(first), energy(second)
	bestT, bestLag, most := t, lag, 0.0
	for d := max(1, lag-reach); d <= lag+reach; d++ {
		common := 0.0
		if d < len(ab) {
			common = ab[d]
		}
		det := aa*bb - common*common
		for k := max(0, t-reach); k <= t+reach && k+d < len(b); k++ {
			p, q := a[k], b[k+d]
			u, v := (p*bb-q*common)/det, (q*aa-p*common)/det
			if e := u*p + v*q; u > 0 && v > 0 && e > most {
				bestT, bestLag, most = k, d, e
			}
		}
	}
	return bestT, bestLag
}

// products is the sum over i of x[k+i]·y[i], for k from 0 to below n.
func products(x, y []float64, n int) []float64 {
	size := 1
	for size < len(x)+len(y) {
		size *= 2
	}
	fft := fourier.NewFFT(size)
	padded := make([]float64, size)
	copy(padded, x)
	a := fft.Coefficients(nil, padded)
	clear(padded)
	copy(padded, y)
	for i, c := range fft.Coefficients(nil, padded) {
		a[i] *= cmplx.Conj(c) / complex(float64(size), 0)
	}
	return fft.Sequence(padded, a)[:n]
}

func energy(x []float64) float64 { return meanSquare(x) * float64(len(x)) }
