// Package num is the small maths that several parts of dsp share, and that gonum has
// not, or has otherwise. What gonum has is taken from there: sums, products, extremes.
//
// No function keeps what it is given, and none but [Nth] changes it. NaN is for the
// caller to keep out.
package num

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
)

// NormalMAD is the median absolute deviation of a normal distribution in units of its
// standard deviation: the upper quartile of the standard normal.
const NormalMAD = 0.6744897501960817

// Square is x times itself.
func Square(x float64) float64 { return x * x }

// MeanSquare is the mean of the squares of x, 0 of none.
func MeanSquare(x []float64) float64 {
	if len(x) == 0 {
		return 0
	}
	return floats.Dot(x, x) / float64(len(x))
}

// Median is the middle of x, between the two in the middle where their number is even, 0
// of none. gonum's stat.Quantile lies elsewhere for an even number.
func Median(x []float64) float64 {
	if len(x) == 0 {
		return 0
	}
	y := slices.Clone(x)
	slices.Sort(y)
	return (y[(len(y)-1)/2] + y[len(y)/2]) / 2
}

// Spread is the standard deviation of x about a centre as told by the median absolute
// deviation, as for a normal distribution; 0 of none.
func Spread(x []float64, centre float64) float64 {
	sizes := make([]float64, len(x))
	for i, v := range x {
		sizes[i] = math.Abs(v - centre)
	}
	return Median(sizes) / NormalMAD
}

// Nth is the value that n of x are no larger than, n from 0 on; x is put into another
// order (Hoare 1961, Algorithm 65: find).
func Nth(x []float64, n int) float64 {
	for lo, hi := 0, len(x)-1; lo < hi; {
		pivot, i, j := x[n], lo, hi
		for i <= j {
			for x[i] < pivot {
				i++
			}
			for x[j] > pivot {
				j--
			}
			if i <= j {
				x[i], x[j] = x[j], x[i]
				i, j = i+1, j-1
			}
		}
		if j < n {
			lo = i
		}
		if n < i {
			hi = j
		}
	}
	return x[n]
}
