package shutter

import (
	"math"
	"testing"
)

func TestASmearedRecordingIsLessSureHoweverManyFirings(t *testing.T) {
	const ms = 1e-3
	judged := func(n int, u float64) Speed {
		var firings []Firing
		run := Run{Mark: Mark{Label: "1/30", Nominal: 1.0 / 32}}
		for i := range n {
			firings = append(firings, Firing{Open: float64(i), Close: float64(i) + 1.0/32, Closed: true, U: 0.02 * ms, Edge: EdgeStart})
			run.Firings = append(run.Firings, i)
		}
		Smear(firings, u)
		return Judge(firings, Laying{Runs: []Run{run}}, Standard()).Speeds[0]
	}
	// 1.96·0.6 ms of 31.25 ms are 0.0543 stop.
	for _, n := range []int{3, 12} {
		if got := judged(n, 0.6*ms).Summary.Budget.Onset; math.Abs(got-0.0543) > 0.001 {
			t.Errorf("%d firings: onset term %.4f stop, want 0.0543", n, got)
		}
		if got := judged(n, 0).Summary.Budget.Onset; got > 0.002 {
			t.Errorf("%d firings, not smeared: onset term %.4f stop", n, got)
		}
	}
}

func TestAFiringThatNeverClosedIsNotSmeared(t *testing.T) {
	f := []Firing{{Open: 1}}
	if Smear(f, 1e-3); f[0].U != 0 || f[0].Common != 0 {
		t.Errorf("%+v", f[0])
	}
}
