package judge

import (
	"math"
	"testing"

	"earshot/dsp/outside"
	"earshot/shutter"
)

// The column for a fraction of 95 %, the only one used here.
func TestStudentTIsThatOfTheGuide(t *testing.T) {
	guide := outside.Source{Name: "JCGM 100:2008 (GUM), Table G.2", Figures: "as the guide prints them, recomputed"}
	for _, c := range []struct {
		df int
		t  string
	}{
		{1, "12.71"}, {2, "4.30"}, {3, "3.18"}, {4, "2.78"}, {5, "2.57"}, {6, "2.45"}, {7, "2.36"}, {8, "2.31"},
		{9, "2.26"}, {10, "2.23"}, {16, "2.12"}, {20, "2.09"}, {50, "2.01"},
	} {
		outside.Printed(t, guide, "Student's t at 95 %, by degrees of freedom", studentT(c.df), c.t)
	}
}

// The means of ten days and their standard deviations of five observations each. The
// F that the guide goes on to has no part here.
func TestPooledScatterIsThatOfTheGuide(t *testing.T) {
	guide := outside.Source{Name: "JCGM 100:2008 (GUM), example H.5, Table H.9", Figures: "as the guide prints them"}
	var pooled scatter
	for _, µV := range []float64{60, 77, 111, 101, 67, 93, 80, 73, 88, 86} {
		pooled = pooled.pooledWith(scatter{s: µV, df: 4})
	}
	outside.Printed(t, guide, "pooled standard deviation within days, µV", pooled.s, "85")
	outside.Exact(t, guide, "its degrees of freedom", []int{pooled.df}, []int{40})
	days := []float64{10.000172, 10.000116, 10.000013, 10.000144, 10.000106, 10.000031, 10.000060, 10.000125, 10.000163, 10.000041}
	outside.Printed(t, guide, "mean of the days, V", shutter.Mean(days), "10.000097")
	outside.Printed(t, guide, "standard deviation between days, µV", 1e6*shutter.SD(days), "57")
}

func TestScatterIsThePooledOneUnlessTheSpeedsOwnIsLarger(t *testing.T) {
	pooled := scatter{s: 0.05, df: 8}
	cases := []struct {
		name   string
		x      []float64
		pooled scatter
		want   scatter
	}{
		{"smaller than pooled", []float64{0, 0.01, 0.02}, pooled, pooled},
		{"larger than pooled", []float64{0, 0.1, 0.2}, pooled, scatter{0.1, 2}},
		{"one firing takes the pooled", []float64{0.3}, pooled, pooled},
		{"nothing pooled", []float64{0, 0.1, 0.2}, scatter{}, scatter{0.1, 2}},
		{"one firing and nothing pooled is not known", []float64{0.3}, scatter{}, scatter{}},
	}
	for _, c := range cases {
		got := (&trial{x: c.x}).scatterFor(c.pooled)
		if got.df != c.want.df || math.Abs(got.s-c.want.s) > 1e-12 {
			t.Errorf("%s: scatter = %+v, want %+v", c.name, got, c.want)
		}
	}
}

// The half-widths of the edge and of the clock, worked by hand:
// 0.95 · 2 ms / (T ln 2) and 0.95 · 100e-6 / ln 2.
func TestBudgetOfASpeedOnItsMark(t *testing.T) {
	for label, c := range map[string]struct{ nominal, edge float64 }{
		"1": {1, 0.0027}, "1/15": {0.0625, 0.0439}, "1/30": {0.03125, 0.088}, "1/60": {1.0 / 64, 0.175}, "1/125": {1.0 / 128, 0.351},
	} {
		b := (&trial{x: []float64{0, 0, 0}}).budget(Standard(), c.nominal)
		if math.Abs(b.Edge-c.edge) > 0.0005 || math.Abs(b.Clock-0.000137) > 1e-6 {
			t.Errorf("%s: edge %.4f, clock %.6f, want %.3f, 0.000137", label, b.Edge, b.Clock, c.edge)
		}
		if b.u95() < b.Edge || b.Repeatability != 0 || b.Onset != 0 {
			t.Errorf("%s: budget %+v, u95 %v", label, b, b.u95())
		}
	}
}

// Three firings of s = 0.03 on 2 degrees of freedom: 4.303 · 0.03 / √3 = 0.0745;
// onsets of 0.01 stop each, no part of it common: 1.96 · 0.01 / √3 = 0.0113.
func TestRepeatabilityAndOnsetShrinkWithTheFirings(t *testing.T) {
	tr := &trial{x: []float64{-0.03, 0, 0.03}, onsets: []onsetError{{own: 0.01}, {own: 0.01}, {own: 0.01}}}
	tr.scatter = scatterOf(tr.x)
	b := tr.budget(Standard(), 1)
	if math.Abs(b.Repeatability-0.0745) > 0.0001 || math.Abs(b.Onset-0.0113) > 0.0001 {
		t.Errorf("repeatability %.4f, onset %.4f, want 0.0745, 0.0113", b.Repeatability, b.Onset)
	}
	if want := math.Sqrt(0.0745*0.0745 + 0.0113*0.0113 + 0.0027*0.0027); math.Abs(b.u95()-want) > 0.0001 {
		t.Errorf("u95 = %.4f, want %.4f", b.u95(), want)
	}
}

// Two speeds with buzz scatter by 0.01 and 0.02 stop, one without by 0.1, and one
// with buzz is erratic: the pools know nothing of each other, nor of the erratic one.
func TestScatterIsPooledByKindAndWithoutFaults(t *testing.T) {
	firings, laying := judgeFired(t,
		judgeSpeed{label: "1", x: []float64{0, -0.01, 0.01}}, judgeSpeed{label: "1/2", x: []float64{0, -0.02, 0.02}},
		judgeSpeed{label: "1/4", x: []float64{0, 0.6, -0.2}}, judgeSpeed{label: "1/15", silent: true, x: []float64{0, -0.1, 0.1}})
	j := newJudging(firings, Standard())
	j.place(laying)
	j.findSymptoms()
	buzzing, silent := j.pools()
	if want := math.Sqrt((0.01*0.01 + 0.02*0.02) / 2); math.Abs(buzzing.s-want) > 1e-9 || buzzing.df != 4 {
		t.Errorf("with buzz: %+v, want %.6f on 4", buzzing, want)
	}
	if math.Abs(silent.s-0.1) > 1e-9 || silent.df != 2 {
		t.Errorf("without: %+v, want 0.1 on 2", silent)
	}
}
