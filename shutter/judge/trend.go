package judge

import "slices"

// trend is Kendall's S of one or several series, with its exact distribution
// where every order of each series is equally likely.
//
// prob[i] is the probability of S = top − 2i. The distribution of a series with
// ties is that of the inversions of a multiset, whose generating function is the
// Gaussian multinomial coefficient; sums of series convolve (Kendall 1975, Rank
// Correlation Methods; Mann 1945).
type trend struct {
	s    int
	top  int
	prob []float64
}

// newTrend returns the trend of x in its order: S counts the pairs that rise less
// those that fall. It takes some n³ operations, so x is best kept to tens.
func newTrend(x []float64) trend {
	t := trend{prob: []float64{1}}
	for i, a := range x {
		for _, b := range x[i+1:] {
			switch {
			case b > a:
				t.s++
				t.top++
			case b < a:
				t.s--
				t.top++
			}
		}
	}
	seen := 0
	for _, ties := range tieSizes(x) {
		seen += ties
		t.prob = convolve(t.prob, gaussianBinomial(seen, ties))
	}
	return t
}

// plus returns the trend of both taken together, pairs across them not counted.
func (t trend) plus(o trend) trend {
	return trend{s: t.s + o.s, top: t.top + o.top, prob: convolve(t.prob, o.prob)}
}

// falling returns the exact one-sided probability of an S as low as this or
// lower, 1 for an empty series.
func (t trend) falling() float64 {
	first := (t.top - t.s) / 2
	var p float64
	for _, v := range t.prob[first:] {
		p += v
	}
	return min(p, 1)
}

// tieSizes returns how often each value occurs in x.
func tieSizes(x []float64) []int {
	s := slices.Sorted(slices.Values(x))
	var sizes []int
	for i, v := range s {
		if i > 0 && v == s[i-1] {
			sizes[len(sizes)-1]++
			continue
		}
		sizes = append(sizes, 1)
	}
	return sizes
}

// gaussianBinomial returns the coefficients of the q-binomial of n over k as
// probabilities, by Pascal's rule [n,k] = [n−1,k−1] + q^k [n−1,k], which only
// adds and so keeps its digits.
func gaussianBinomial(n, k int) []float64 {
	row := make([][]float64, k+1)
	row[0] = []float64{1}
	for m := 1; m <= n; m++ {
		for j := min(m, k); j >= 1; j-- {
			row[j] = addShifted(row[j-1], row[j], j)
		}
	}
	return normalised(row[k])
}

// addShifted returns a + q^shift · b.
func addShifted(a, b []float64, shift int) []float64 {
	size := len(a)
	if len(b) > 0 {
		size = max(size, len(b)+shift)
	}
	sum := make([]float64, size)
	copy(sum, a)
	for i, v := range b {
		sum[i+shift] += v
	}
	return sum
}

func normalised(x []float64) []float64 {
	var sum float64
	for _, v := range x {
		sum += v
	}
	for i := range x {
		x[i] /= sum
	}
	return x
}

// convolve returns the distribution of the sum of two independent counts.
func convolve(a, b []float64) []float64 {
	sum := make([]float64, len(a)+len(b)-1)
	for i, p := range a {
		for j, q := range b {
			sum[i+j] += p * q
		}
	}
	return sum
}
