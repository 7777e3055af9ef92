package main

import (
	"math"
	"testing"
)

func TestQuantile(t *testing.T) {
	cases := []struct {
		name string
		x    []float64
		p    float64
		want float64
	}{
		{"the median of an odd number is the middle one", []float64{1, 2, 3, 4, 50}, 0.5, 3},
		{"the median of an even number lies halfway", []float64{1, 2, 4, 50}, 0.5, 3},
		{"the 95th percentile of 0 to 100", counting(101), 0.95, 95},
		{"of one value it is that", []float64{7}, 0.95, 7},
		{"of none it is 0", nil, 0.95, 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if got := quantile(c.x, c.p); math.Abs(got-c.want) > 1e-12 {
				t.Errorf("quantile(%v, %v) = %v, want %v", c.x, c.p, got, c.want)
			}
		})
	}
}

func counting(n int) []float64 {
	x := make([]float64, n)
	for i := range x {
		x[i] = float64(i)
	}
	return x
}

func TestErrorsWithinTheirUncertaintyAreCovered(t *testing.T) {
	c := newTally("", core)
	for _, e := range []float64{0, 19e-6, -19e-6, 20e-6, -25e-6} { // 1.96 times 10 µs is 19.6 µs
		c.addTiming(timing{error: e, u: 10e-6, true: 1})
	}
	if c.covered != 3 {
		t.Errorf("%d of 5 errors covered, want 3", c.covered)
	}
	if want := -5e-6 / 5; math.Abs(c.bias()-want) > 1e-12 {
		t.Errorf("bias = %v, want %v", c.bias(), want)
	}
}
