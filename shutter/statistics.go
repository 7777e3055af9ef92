package shutter

import (
	"math"
	"slices"
)

// Mean returns the arithmetic mean, 0 for none. A second pass over the residuals
// takes back what the first lost to rounding, which stat.Mean leaves.
func Mean(x []float64) float64 {
	if len(x) == 0 {
		return 0
	}
	n := float64(len(x))
	var sum float64
	for _, v := range x {
		sum += v
	}
	m := sum / n
	var rest float64
	for _, v := range x {
		rest += v - m
	}
	return m + rest/n
}

// sumOfSquares returns Σ(x−mean)², corrected for the rounding of the mean (Chan,
// Golub and LeVeque 1983).
func sumOfSquares(x []float64) float64 {
	if len(x) < 2 {
		return 0
	}
	m := Mean(x)
	var squares, rest float64
	for _, v := range x {
		squares += (v - m) * (v - m)
		rest += v - m
	}
	return math.Max(0, squares-rest*rest/float64(len(x)))
}

// SD returns the standard deviation with n − 1, 0 for fewer than two.
func SD(x []float64) float64 {
	if len(x) < 2 {
		return 0
	}
	return math.Sqrt(sumOfSquares(x) / float64(len(x)-1))
}

// Median returns the middle value, or the mean of the two middle ones; 0 for none. x is not
// changed. None of the kinds of stat.Quantile gives this.
func Median(x []float64) float64 {
	if len(x) == 0 {
		return 0
	}
	s := slices.Clone(x)
	slices.Sort(s)
	h := len(s) / 2
	if len(s)%2 == 1 {
		return s[h]
	}
	return s[h-1] + (s[h]-s[h-1])/2
}

// Range returns the range max − min, 0 for fewer than two.
func Range(x []float64) float64 {
	if len(x) < 2 {
		return 0
	}
	return slices.Max(x) - slices.Min(x)
}

// normalMAD is the median absolute deviation of a normal distribution in units of its
// standard deviation.
const normalMAD = 0.6744897501960817

// RobustSD returns the standard deviation as told by the median absolute deviation, as for
// a normal distribution; 0 for none.
func RobustSD(x []float64) float64 {
	middle := Median(x)
	apart := make([]float64, len(x))
	for i, v := range x {
		apart[i] = math.Abs(v - middle)
	}
	return Median(apart) / normalMAD
}
