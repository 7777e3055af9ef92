package timing

import (
	"math"
	"testing"

	"earshot/shutter"
	"earshot/shutter/assign"
	"earshot/shutter/judge"
)

func TestASmearedRecordingIsLessSureHoweverManyFirings(t *testing.T) {
	const ms = 1e-3
	judged := func(n int, u float64) judge.Speed {
		var firings []shutter.Firing
		run := assign.Run{Mark: shutter.Mark{Label: "1/30", Nominal: 1.0 / 32}}
		for i := range n {
			firings = append(firings, shutter.Firing{Open: float64(i), Close: float64(i) + 1.0/32, Closed: true, U: 0.02 * ms, Edge: shutter.EdgeStart})
			run.Firings = append(run.Firings, i)
		}
		Smear(firings, u)
		return judge.Judge(firings, assign.Laying{Runs: []assign.Run{run}}, judge.Standard()).Speeds[0]
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
	f := []shutter.Firing{{Open: 1}}
	if Smear(f, 1e-3); f[0].U != 0 || f[0].Common != 0 {
		t.Errorf("%+v", f[0])
	}
}
