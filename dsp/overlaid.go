package dsp

import (
	"math"
	"math/cmplx"

	"gonum.org/v1/gonum/dsp/fourier"
)

// Times, in s, of two movements so close that they are one sound.
const (
	overlaidBefore = 0.012 // the first begins at most this long before the loudest part of both
	overlaidAfter  = 0.003 // or after it
	overlaidLeast  = 0.002 // the second follows this soon,
	overlaidMost   = 0.025 // or this late
	overlaidMargin = 0.0005
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
// own kind: it fits both by least squares at all times that they may have, and
// tells how much better that explains the sound than either of them at any time.
// ok is false where the kinds are too little known or too like each other, or where
// one would have to be more than twice as loud in the sound as in the mean, or less
// than half. It returns the error of src, wrapped.
func Overlay(src Source, channel int, first, second *Movements, loudest float64) (o Overlaid, ok bool, err error) {
	if len(first.mean) == 0 || len(second.mean) == 0 {
		return o, false, nil
	}
	rate := float64(src.Format().Rate)
	times, lags := int((overlaidBefore+overlaidAfter)*rate), int(overlaidMost*rate)
	from := int64(math.Round(loudest - overlaidBefore*rate))
	x, err := Excerpt(src, channel, from, times+lags+max(len(first.mean), len(second.mean)))
	if err != nil {
		return o, false, err
	}
	f := overlayFit{
		a: products(x, first.mean, times), b: products(x, second.mean, times+lags),
		aa: energy(first.mean), bb: energy(second.mean), ab: products(first.mean, second.mean, min(lags, len(first.mean))),
	}
	t, d, both := f.best(times, int(overlaidLeast*rate))
	if d == 0 {
		return o, false, nil
	}
	all := energy(x[t:min(len(x), t+d+len(second.mean))])
	one := math.Max(squares(f.a)/f.aa, squares(f.b)/f.bb)
	margin, bias := overlaidMargin*rate, math.Hypot(first.Start.Bias, second.Start.Bias)
	return Overlaid{
		First: float64(from) + float64(t) + margin, Second: float64(from) + float64(t+d) + margin,
		U: math.Hypot(math.Sqrt(2.0/12), bias), Bias: bias,
		Gain: 10 * math.Log10(math.Max(all-one, 1e-3*all)/math.Max(all-both, 1e-3*all)),
	}, true, nil
}

// overlayFit holds the products of a sound with two movements at all times, their
// energies, and their products with each other at all lags.
type overlayFit struct {
	a, b, ab []float64
	aa, bb   float64
}

// best is the time of the first movement and the lag of the second that explain
// most, and how much of the energy they do; a lag of 0 where none is allowed. It
// looks at every other sample first.
func (f *overlayFit) best(times, least int) (t, lag int, explained float64) {
	const coarse = 2
	for d := least; d < len(f.ab); d += coarse {
		for k := 0; k < times; k += coarse {
			if e := f.explained(k, d); e > explained {
				t, lag, explained = k, d, e
			}
		}
	}
	if lag == 0 {
		return 0, 0, 0
	}
	nearT, nearLag := t, lag
	for d := max(least, nearLag-1); d <= min(nearLag+1, len(f.ab)-1); d++ {
		for k := max(0, nearT-1); k <= min(nearT+1, times-1); k++ {
			if e := f.explained(k, d); e > explained {
				t, lag, explained = k, d, e
			}
		}
	}
	return t, lag, explained
}

// explained is how much of the energy both movements explain, the first at k and the
// second d later; 0 where one of them would have to be too loud or too quiet, or
// where they can't be told apart.
func (f *overlayFit) explained(k, d int) float64 {
	const loudest, distinct = 2.0, 0.05 // times as loud as in the mean; of what differs
	ab := f.ab[d]
	det := f.aa*f.bb - ab*ab
	if det < distinct*f.aa*f.bb {
		return 0
	}
	p, q := f.a[k], f.b[k+d]
	u, v := (p*f.bb-q*ab)/det, (q*f.aa-p*ab)/det
	if u < 1/loudest || v < 1/loudest || u > loudest || v > loudest {
		return 0
	}
	return u*p + v*q
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

// squares is the largest square of x.
func squares(x []float64) float64 {
	most := 0.0
	for _, v := range x {
		most = math.Max(most, v*v)
	}
	return most
}
