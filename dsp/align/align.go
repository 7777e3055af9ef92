package align

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"

	"earshot/dsp/internal/num"
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
	since    float64     // the earliest that they may begin, samples from the common instant
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

// byShape moves each sound, all laid at one index so far, to where its envelope is most
// like the mean of all, or else first like that of the most typical of them: in the mean
// of those that were laid by their start and those by their stop both stand, and each
// would stay where it is. What lays them over each other better counts.
func (a *aligned) byShape() {
	bin := max(2, int(shapeBin*a.rate))
	step := bin / 2
	at, reach := a.shift[0], int(shapeReach*a.rate)/step
	w := stretch{int(at - shapeBefore*a.rate), int(at + alignAfter*a.rate), reach * step}
	shapes := make([][]float64, len(a.x))
	for i, x := range a.x {
		shapes[i] = shape(cut(x, 0, w.from-w.reach, w.to+w.reach), bin, step)
	}
	unmoved := over(shapes, make([]int, len(shapes)), reach)
	stack := -1.0
	for _, like := range [][]float64{sumOf(unmoved), unmoved[mostTypical(unmoved)]} {
		lags, mean := laidOver(shapes, like, reach)
		if s := floats.Dot(mean, mean); s > stack {
			stack = s
			for i, lag := range lags {
				a.shift[i] = at + float64(lag*step)
			}
		}
	}
}

// laidOver returns the lags by which rows, longer by reach on either side, must be moved
// back to be like one, and then like their mean, which it returns too, to a factor.
func laidOver(rows [][]float64, like []float64, reach int) (lags []int, mean []float64) {
	lags, mean = make([]int, len(rows)), like
	for range 3 {
		for i, row := range rows {
			lag, _ := fineLag(row, mean, reach)
			lags[i] = int(math.Round(lag))
		}
		mean = sumOf(over(rows, lags, reach))
	}
	return lags, mean
}

// over is what of the rows lies over each other where each is moved back by its lag, each
// to a norm of 1.
func over(rows [][]float64, lags []int, reach int) (laid [][]float64) {
	for i, row := range rows {
		laid = append(laid, unit(slices.Clone(row[reach+lags[i]:len(row)-reach+lags[i]])))
	}
	return laid
}

// shape is the envelope of x: the RMS over bin samples, every step.
func shape(x []float64, bin, step int) []float64 {
	var s []float64
	for i := 0; i+bin <= len(x); i += step {
		s = append(s, math.Sqrt(num.MeanSquare(x[i:i+bin])))
	}
	return s
}
