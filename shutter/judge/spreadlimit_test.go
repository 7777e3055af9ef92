package judge

import (
	"fmt"
	"math"
	"testing"

	"earshot/dsp/outside"
)

// The points of the range are those of the studentized range at infinite degrees of
// freedom.
func TestRangeQuantileAgreesWithPublishedPoints(t *testing.T) {
	harter := outside.Source{Name: "H. L. Harter, Tables of range and studentized range, Ann. Math. Statist. 31, 1960", Figures: "from memory"}
	for _, c := range []struct {
		p       float64
		n       int
		printed string
	}{
		{0.99, 2, "3.643"}, {0.99, 3, "4.120"}, {0.99, 4, "4.403"}, {0.99, 5, "4.603"}, {0.99, 6, "4.757"},
		{0.99, 7, "4.882"}, {0.99, 8, "4.987"}, {0.99, 9, "5.078"}, {0.99, 10, "5.157"}, {0.99, 20, "5.645"},
		{0.95, 2, "2.772"}, {0.95, 3, "3.314"}, {0.95, 4, "3.633"}, {0.95, 5, "3.858"}, {0.95, 10, "4.474"}, {0.95, 20, "5.012"},
	} {
		outside.Printed(t, harter, fmt.Sprintf("%.0f %% points of the range", 100*c.p), rangeQuantile(c.p, c.n), c.printed)
	}
}

// Two normals differ by a normal of variance 2, so their range has a closed form.
func TestRangeOfTwoHasItsClosedForm(t *testing.T) {
	for _, p := range []float64{0.5, 0.9, 0.95, 0.99, 0.999} {
		want := 2 * math.Erfinv(p)
		if got := rangeQuantile(p, 2); math.Abs(got-want) > 1e-8 {
			t.Errorf("rangeQuantile(%v, 2) = %.10f, want %.10f", p, got, want)
		}
	}
}

// The mean range is ∫ (1 − F) dw.
func TestMeanRangeIsTheControlChartFactor(t *testing.T) {
	charts := outside.Source{Name: "ASTM MNL 7, factor d2 of control charts", Figures: "from memory"}
	const step = 0.01
	for _, c := range []struct {
		n       int
		printed string
	}{{2, "1.128"}, {3, "1.693"}, {4, "2.059"}, {5, "2.326"}, {10, "3.078"}} {
		var got float64
		for w := step / 2; w < 12; w += step {
			below, _ := rangeDistribution(w, c.n)
			got += (1 - below) * step
		}
		outside.Printed(t, charts, "mean range of 2 to 10", got, c.printed)
	}
}

func TestSpreadLimitsGrowWithTheNumberOfFirings(t *testing.T) {
	good, service := Standard().SpreadLimits(3)
	if math.Abs(good-1.0/6) > 1e-9 || math.Abs(service-1.0/3) > 1e-9 {
		t.Errorf("SpreadLimits(3) = %v, %v, want the policy's own 1/6, 1/3", good, service)
	}
	for n, factor := range map[int]float64{2: 3.64 / 4.12, 4: 4.40 / 4.12, 5: 4.60 / 4.12, 10: 5.16 / 4.12} {
		if _, got := Standard().SpreadLimits(n); math.Abs(got-factor/3) > 0.001 {
			t.Errorf("service limit of the spread of %d = %.4f, want %.4f", n, got, factor/3)
		}
	}
	if good, service := Standard().SpreadLimits(1); good != 0 || service != 0 {
		t.Errorf("SpreadLimits(1) = %v, %v, want 0, 0", good, service)
	}
	last := 0.0
	for n := 2; n < 2000; n = n*3/2 + 1 {
		_, service := Standard().SpreadLimits(n)
		if !(service > last) || service > 1 {
			t.Errorf("service limit of the spread of %d = %v after %v", n, service, last)
		}
		last = service
	}
}
