package dsp

import (
	"math"
	"slices"
)

// Times, in s, of the alignment of like sounds.
const (
	alignBefore = 0.030  // of the excerpt before the loudest part
	alignAfter  = 0.010  // and after it,
	tail        = 0.015  // and how much more of it is kept for its mean
	shapeBin    = 0.0005 // of the envelope that is aligned first
	shapeBefore = 0.015  // of it, before the loudest part: what came earlier is another sound
	shapeReach  = 0.010  // by which the loudest parts may have been mistaken
	fineReach   = 0.002  // by which the waveforms are then moved
	fineBefore  = 0.003  // of the waveform that is compared, before the loudest part
	fineAfter   = 0.006  // and after it
)

// trustedLikeness is the correlation from which a waveform may be aligned with
// the mean of the others by it. For a correlation ρ what is common stands
// ρ²/(1−ρ²) over what differs, at 0.5 5 dB under it; over the hundreds of samples
// compared that is plenty, but for a cycle to be skipped the envelopes must have
// been laid over each other first.
const trustedLikeness = 0.5

// aligned are like sounds laid one over the other.
type aligned struct {
	rate     float64
	x        [][]float64 // excerpts, conditioned
	origin   []float64   // the sample of the clip that x[i][0] is
	shift    []float64   // index in x[i] of the common instant
	likeness []float64   // correlation of each with the mean of the others
}

// clone is a copy whose sounds can be moved by themselves.
func (a *aligned) clone() *aligned {
	b := *a
	b.shift, b.likeness = slices.Clone(a.shift), slices.Clone(a.likeness)
	return &b
}

// align lays the excerpts over each other, each holding a sound whose loudest
// part begins at index at: first by the shape of their envelopes, since not the
// same part need be the loudest in all, then by their waveforms to a fraction of
// a sample.
func align(rate float64, x [][]float64, origin []float64, at int) *aligned {
	a := &aligned{rate: rate, x: x, origin: origin}
	for range x {
		a.shift = append(a.shift, float64(at))
	}
	a.likeness = make([]float64, len(x))
	if len(x) > 1 {
		a.byShape()
		a.byWaveform(stretch{-int(fineBefore * rate), int(fineAfter * rate), int(fineReach * rate)})
	}
	return a
}

// byShape moves each sound, all laid at one index so far, to where its envelope is
// most like the mean of all.
func (a *aligned) byShape() {
	bin := max(1, int(shapeBin*a.rate))
	step := max(1, bin/2)
	reach := int(shapeReach*a.rate) / step
	at := a.shift[0]
	first := max(0, int(at-shapeBefore*a.rate))
	shapes := make([][]float64, len(a.x))
	for i, x := range a.x {
		shapes[i] = shape(x[first:min(len(x), int(at+alignAfter*a.rate))], bin, step)
	}
	for range 2 {
		mean := meanOf(shapes, func(i int) int { return int(a.shift[i]-at) / step })
		for i := range shapes {
			lag, _ := bestLag(shapes[i], mean, reach)
			a.shift[i] = at + float64(lag*step)
		}
	}
}

// shape is the envelope of x: the RMS over bin samples, every step.
func shape(x []float64, bin, step int) []float64 {
	var s []float64
	for i := 0; i+bin <= len(x); i += step {
		s = append(s, math.Sqrt(meanSquare(x[i:i+bin])))
	}
	return s
}

// meanOf is the mean of rows, each moved back by its lag and scaled to a norm of 1.
func meanOf(rows [][]float64, lag func(int) int) []float64 {
	mean := make([]float64, len(rows[0]))
	for i, row := range rows {
		norm, by := math.Sqrt(meanSquare(row)), lag(i)
		if norm == 0 {
			continue
		}
		for k := range mean {
			if j := k + by; j >= 0 && j < len(row) {
				mean[k] += row[j] / norm
			}
		}
	}
	return mean
}

// bestLag is the lag by which x must be moved back to be most like y, and the
// correlation there.
func bestLag(x, y []float64, reach int) (best int, rho float64) {
	rho = -1
	for lag := -reach; lag <= reach; lag++ {
		if c := correlation(x, y, lag); c > rho {
			best, rho = lag, c
		}
	}
	return best, rho
}

// correlation is the normalised correlation of x[k+lag] with y[k].
func correlation(x, y []float64, lag int) float64 {
	from, to := max(0, -lag), min(len(y), len(x)-lag)
	if from >= to {
		return -1
	}
	var xy, xx, yy float64
	xs, ys := x[from+lag:to+lag], y[from:to]
	for k, v := range ys {
		xy += xs[k] * v
		xx += xs[k] * xs[k]
		yy += v * v
	}
	if xx == 0 || yy == 0 {
		return -1
	}
	return xy / math.Sqrt(xx) / math.Sqrt(yy) // as in fineLag
}
