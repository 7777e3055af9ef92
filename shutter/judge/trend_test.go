package judge

import (
	"math"
	"testing"

	"earshot/dsp/outside"
)

// trendFalls returns n values whose S is −s: a falling series in which single
// neighbours are put right until the sum is met.
func trendFalls(n, s int) []float64 {
	x := make([]float64, n)
	for i := range x {
		x[i] = float64(n - i)
	}
	swaps := (n*(n-1)/2 - s) / 2
	for pass := 0; swaps > 0; pass++ {
		for i := 0; i+1 < n && swaps > 0; i++ {
			if x[i] > x[i+1] {
				x[i], x[i+1] = x[i+1], x[i]
				swaps--
			}
		}
	}
	return x
}

// The probabilities to four places that tables of Kendall's S give, and one to five.
func TestTrendHasTheExactProbabilitiesOfMannKendall(t *testing.T) {
	kendall := outside.Source{Name: "M. G. Kendall, Rank Correlation Methods, 1975, table of S", Figures: "from memory, recomputed by counting inversions"}
	rkt := outside.Source{Name: "R package rkt, the documented call tauprob(12, 30)", Figures: "read there"}
	for _, c := range []struct {
		n, s    int
		printed string
		source  outside.Source
	}{
		{4, 6, "0.0417", kendall}, {5, 8, "0.0417", kendall}, {5, 10, "0.0083", kendall},
		{6, 9, "0.0681", kendall}, {6, 11, "0.0278", kendall}, {6, 13, "0.0083", kendall}, {6, 15, "0.0014", kendall},
		{7, 13, "0.0345", kendall}, {7, 15, "0.0151", kendall}, {7, 17, "0.0054", kendall},
		{8, 14, "0.0543", kendall}, {8, 16, "0.0305", kendall}, {8, 18, "0.0156", kendall}, {8, 20, "0.0071", kendall},
		{12, 30, "0.02237", rkt},
	} {
		got := newTrend(trendFalls(c.n, c.s))
		if got.s != -c.s {
			t.Fatalf("S of the series of %d made for %d = %d, want %d", c.n, c.s, got.s, -c.s)
		}
		outside.Printed(t, c.source, "exact probability of S, one-sided", got.falling(), c.printed)
	}
}

// trendOrders calls f with every order of x.
func trendOrders(x []float64, k int, f func([]float64)) {
	if k == len(x) {
		f(x)
		return
	}
	for i := k; i < len(x); i++ {
		x[k], x[i] = x[i], x[k]
		trendOrders(x, k+1, f)
		x[k], x[i] = x[i], x[k]
	}
}

// trendCounted returns P(S ≤ s) of the values by going through all their orders.
func trendCounted(x []float64, s int) float64 {
	var all, low float64
	trendOrders(append([]float64{}, x...), 0, func(y []float64) {
		sum := 0
		for i := range y {
			for k := range i {
				if y[i] > y[k] {
					sum++
				}
				if y[i] < y[k] {
					sum--
				}
			}
		}
		all++
		if sum <= s {
			low++
		}
	})
	return low / all
}

func TestTrendCountsEveryOrderOnce(t *testing.T) {
	cases := map[string][]float64{
		"no ties":          {3, 1, 2, 0},
		"one pair tied":    {3, 2, 2, 1, 0},
		"two groups tied":  {5, 5, 5, 2, 2, 1, 0},
		"all tied":         {4, 4, 4},
		"one value":        {4},
		"ties out of turn": {2, 1, 2, 1, 2, 1, 0},
	}
	for name, x := range cases {
		got := newTrend(x)
		if want := trendCounted(x, got.s); math.Abs(got.falling()-want) > 1e-12 {
			t.Errorf("%s: P(S ≤ %d) of %v = %v, want %v", name, got.s, x, got.falling(), want)
		}
	}
}

// Four speeds of three firings, each falling throughout: each has a chance of 1 in
// 6, and only together do they prove anything.
func TestTrendsOfSeveralSeriesAdd(t *testing.T) {
	sum := newTrend(nil)
	for range 4 {
		sum = sum.plus(newTrend([]float64{3, 2, 1}))
	}
	if sum.s != -12 || math.Abs(sum.falling()-1.0/1296) > 1e-12 {
		t.Errorf("S = %d, p = %v, want -12, 1/1296", sum.s, sum.falling())
	}
	if p := newTrend(nil).falling(); p != 1 {
		t.Errorf("p of no firings = %v, want 1", p)
	}
}

// Kendall's S of n untied values has variance n(n−1)(2n+5)/18 about 0.
func TestTrendHasTheKnownVariance(t *testing.T) {
	for _, n := range []int{2, 5, 10, 30} {
		x := make([]float64, n)
		for i := range x {
			x[i] = float64(i)
		}
		tr := newTrend(x)
		var total, mean, square float64
		for i, p := range tr.prob {
			s := float64(tr.top - 2*i)
			total += p
			mean += p * s
			square += p * s * s
		}
		want := float64(n*(n-1)*(2*n+5)) / 18
		if math.Abs(total-1) > 1e-9 || math.Abs(mean) > 1e-9 || math.Abs(square/want-1) > 1e-9 {
			t.Errorf("n = %d: sum %v, mean %v, variance %v, want 1, 0, %v", n, total, mean, square, want)
		}
	}
}
