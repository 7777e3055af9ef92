package align

import (
	"math"
	"math/cmplx"

	"gonum.org/v1/gonum/dsp/fourier"
	"gonum.org/v1/gonum/floats"

	"earshot/dsp"
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

// Interval is the time between two like instants of two movements, in samples from the
// start of the clip.
type Interval struct {
	First, Second float64
	U             float64 // standard uncertainty of the time between
	Bias          float64 // the part of U that all found by the same two movements have in common
}

// Overlaid is what was found of two movements that make one sound: the time between their
// starts and that between their end stops.
type Overlaid struct{ Start, Stop Interval }

// Overlay looks in the sound whose loudest part begins at loudest, in samples, for
// the one movement followed closely by the other, each as it is in the mean of its
// own kind. How loud they are and when they come is told by their powers over time and
// frequency, and then to a fraction of that by their waveforms. ok is false where the
// kinds are too little known, where both explain the sound badly or hardly better than
// one does, or where they do so only at the bounds of what is looked for. It returns the
// error of src, wrapped.
func Overlay(src dsp.Source, channel int, first, second Template, loudest float64) (o Overlaid, ok bool, err error) {
	if len(first.powers) == 0 || len(second.powers) == 0 {
		return o, false, nil
	}
	rate := float64(src.Format().Rate)
	before := int(overlaidBefore * rate)
	from := int64(math.Round(loudest)) - int64(2*before)
	x, err := dsp.Excerpt(src, channel, from, 2*before+int((OverlaidMost+overlaidAfter)*rate))
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
	return laid(x, float64(from), rate, &first, &second, a.at, b.at-a.at), true, nil
}

// laid is where the two movements lie in x, which begins at sample from of the clip, given
// about where the first does and by how much later the second, in hops. Each is laid where all of it
// lies best, as the louder of its parts does, and then its start by itself: strokes vary from
// shot to shot. x is no more itself afterwards.
func laid(x []float64, from, rate float64, first, second *Template, at, lag int) Overlaid {
	hop := int(math.Round(cellHop * rate))
	at, lag, louder := aligning(x, first.waveform, second.waveform, hop*at, hop*lag, hop*overlaidReach)
	reach := int(partShift * rate)
	a, ua := first.startIn(x, at, reach)
	shown := min(len(first.waveform), len(x)-at)
	floats.AddScaled(x[at:at+shown], -louder, first.waveform[:shown])
	b, ub := second.startIn(x, at+lag, reach)
	origin := from + float64(int(overlaidMargin*rate)) // as templates were cut
	starts, stops := math.Hypot(first.startBias, second.startBias), math.Hypot(first.stopBias, second.stopBias)
	return Overlaid{
		Start: Interval{origin + a, origin + b, math.Hypot(math.Hypot(ua, ub), starts), starts},
		Stop: Interval{origin + float64(at) + first.stroke, origin + float64(at+lag) + second.stroke,
			math.Hypot(math.Hypot(math.Sqrt2*wholeSample, math.Hypot(first.scatter, second.scatter)), stops), stops},
	}
}

// wholeSample is the standard uncertainty of an instant that is known to a sample, in
// samples.
const wholeSample = 0.289

// startIn is where the movement starts in x, and its standard uncertainty, both in samples,
// given where it lies by all of it: by its start alone, within a reach of that, where this
// is as it mostly is. Where one that is weaker than all else that is heard there lies
// further off than strokes scatter, another wave of it may have been taken for the first,
// and at the bound of the reach it is not known where it is best: it lies anywhere between.
func (t *Template) startIn(x []float64, at, reach int) (start, u float64) {
	const over, near = math.Sqrt2 / 2, 3 // a correlation: half of the power; standard deviations
	whole, wholeU := float64(at), math.Hypot(wholeSample, t.scatter)
	if t.part == 0 {
		return whole, wholeU
	}
	part := t.waveform[:t.part]
	lag, rho := fineLag(cut(x, whole, -reach, len(part)+reach), part, reach)
	switch {
	case rho < trustedLikeness:
		return whole, wholeU
	case math.Abs(lag) > float64(reach)-1, rho < over && math.Abs(lag) > near*wholeU:
		return whole + lag/2, math.Hypot(wholeU, lag/math.Sqrt(12))
	}
	return whole + lag, lagUncertainty(part, rho)
}

// aligning is the time of the first of two waveforms, and the lag of the second, at
// which both explain most of x, by least squares, and how many times itself the first is
// then: within a reach of those told, and these where none of the waveforms is in x.
func aligning(x, first, second []float64, t, lag, reach int) (bestT, bestLag int, louder float64) {
	a, b := products(x, first, len(x)), products(x, second, len(x))
	ab := products(first, second, min(len(first), lag+reach+1))
	aa, bb := floats.Dot(first, first), floats.Dot(second, second)
	bestT, bestLag = t, lag
	most := 0.0
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
				bestT, bestLag, louder, most = k, d, u, e
			}
		}
	}
	return bestT, bestLag, louder
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
