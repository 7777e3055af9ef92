package align

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats"
)

// scaled is x so many times as loud.
func scaled(x []float64, by float64) []float64 {
	return floats.ScaleTo(make([]float64, len(x)), by, x)
}

// Powers this small or large have no product in a float.
func TestLagDoesNotHearHowLoudASoundIs(t *testing.T) {
	wide, y := []float64{0.25, 0, 0.5, -0.25, 1, 0.125, -1, -0.5, 0.125}, []float64{1, -0.5, 0.75, 0.5, -0.5}
	lag, rho := fineLag(wide, y, 2)
	if rho < 0.5 || rho > 0.95 {
		t.Fatalf("correlation = %g, not one to tell anything by", rho)
	}
	for _, by := range [][2]float64{{1e-140, 1e-140}, {1e-120, 1e-3}, {1e140, 1e140}, {1e-140, 1e140}} {
		gotLag, gotRho := fineLag(scaled(wide, by[0]), scaled(y, by[1]), 2)
		if !(math.Abs(gotLag-lag) < 1e-9 && math.Abs(gotRho-rho) < 1e-9) {
			t.Errorf("at %g and %g of the level: lag %g at %g, want %g at %g", by[0], by[1], gotLag, gotRho, lag, rho)
		}
	}
}

// What is moved is moved against what stays, which is in the same frame.
func TestASoundUnlikeTheMostTypicalStays(t *testing.T) {
	const at, odd = 1440, 4
	a := &aligned{rate: 48000}
	for i, off := range []float64{0, 6, 6, 6, 0} {
		src := scene(0.0005, []float64{at + off}, func(_ int, t float64) float64 {
			if i == odd {
				return 0.3 * thud(t, 8200, 9700, 11300)
			}
			return 0.3 * thud(t, 1500, 3100, 5600)
		})
		a.x, a.shift = append(a.x, src.Frames[:2640]), append(a.shift, at)
	}
	a.ontoMostTypical(stretch{-24, 96, 14})
	if a.shift[odd] != at || math.Abs(a.shift[1]-a.shift[0]-6) > 1 {
		t.Errorf("laid at %.1f, want the last at %d and the second 6 after the first", a.shift, at)
	}
}

func TestSilenceIsMovedNowhere(t *testing.T) {
	silence, sound := make([]float64, 9), []float64{0.5, -0.25, 1, 0.125, -1}
	if lag, rho := fineLag(silence, sound, 2); lag != 0 || rho != -1 {
		t.Errorf("silence by %g at a correlation of %g, want 0 at -1", lag, rho)
	}
}

func TestLagIsFoundToAFractionOfASample(t *testing.T) {
	y := make([]float64, 300)
	for k := range y {
		y[k] = click(float64(k) - 120)
	}
	for _, by := range []float64{-20, -3.3, -0.5, 0, 0.25, 7.75, 24} {
		const reach = 30
		x := make([]float64, len(y)+2*reach)
		for k := range x {
			x[k] = click(float64(k) - reach - 120 - by)
		}
		if lag, rho := fineLag(x, y, reach); math.Abs(lag-by) > 0.05 || rho < 0.9 {
			t.Errorf("lag = %.3f at a correlation of %.3f, want %.2f", lag, rho, by)
		}
	}
}

func TestCutMovesByAFractionOfASample(t *testing.T) {
	x := []float64{0, 1, 2, 3, 4, 5, 6, 7} // linear, so linear interpolation is exact
	tests := []struct {
		name     string
		at       float64
		from, to int
		want     []float64
	}{
		{"a whole index takes samples as they are", 3, -1, 2, []float64{2, 3, 4}},
		{"a fraction lies between", 3.25, -1, 2, []float64{2.25, 3.25, 4.25}},
		{"before the start are zeros", 0.5, -2, 1, []float64{0, 0, 0.5}},
		{"after the end are zeros", 6.5, 0, 3, []float64{6.5, 0, 0}},
		{"a negative index rounds down", -0.5, 0, 2, []float64{0, 0.5}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := cut(x, tt.at, tt.from, tt.to)
			for k := range tt.want {
				if len(got) != len(tt.want) || math.Abs(got[k]-tt.want[k]) > 1e-12 {
					t.Fatalf("cut = %v, want %v", got, tt.want)
				}
			}
		})
	}
}

// One that is taken to begin elsewhere than the rest is moved by that, be it the
// first in the list or any other.
func TestWhicheverIsMistakenIsMovedToTheRest(t *testing.T) {
	const wrong = 240 // samples: 5 ms
	at := instants(7)
	src := scene(0.001, at, func(_ int, t float64) float64 {
		return 0.03*thud(t+wrong, 1900, 4300) + 0.3*thud(t, 1500, 3100, 5600)
	})
	for mistaken := range at {
		for _, by := range []float64{-wrong, wrong} {
			m := locate(t, src, moved(at, func(i int) float64 {
				if i == mistaken {
					return by
				}
				return 0
			}))
			for i := range at {
				if math.Abs(m.Stop.At[i]-at[i]) > 12 || math.Abs(m.Stop.At[i]-at[i]-m.Stop.At[1]+at[1]) > 0.5 {
					t.Errorf("sound %d mistaken by %g: sound %d lies %.2f samples off, another %.2f", mistaken, by, i, m.Stop.At[i]-at[i], m.Stop.At[1]-at[1])
				}
			}
		}
	}
}

// All are laid in one frame: where the first in the list is moved, the rest stay.
func TestTheFirstIsNotMovedAgainstTheRest(t *testing.T) {
	const at, step = 1440, 12 // samples; of the envelopes
	for _, by := range []float64{-240, -96, 0, 96, 240} {
		a := &aligned{rate: 48000}
		for i := range 6 {
			begins := float64(at)
			if i == 0 {
				begins += by
			}
			src := scene(0.001, []float64{begins}, func(_ int, t float64) float64 { return 0.3 * thud(t, 1500, 3100, 5600) })
			a.x, a.shift = append(a.x, src.Frames[:2640]), append(a.shift, at)
		}
		a.byShape()
		for i, shift := range a.shift {
			want := float64(at)
			if i == 0 {
				want += by
			}
			if math.Abs(shift-want) > step {
				t.Errorf("the first %g samples off: sound %d is laid at %g, want %g", by, i, shift, want)
			}
		}
	}
}

// Which part of a movement is the louder may change from shot to shot.
func TestHalfLaidByTheirStartAndHalfByTheirStopAreLaidAlike(t *testing.T) {
	const stroke = 180 // samples: 3.75 ms
	at := instants(12)
	stop := func(i int) float64 { return stroke + 4*float64(i%5-2) }
	src := scene(0.001, at, func(i int, t float64) float64 {
		return 0.2*thud(t, 1900, 4300) + 0.3*thud(t-stop(i), 1500, 3100, 5600)
	})
	for _, share := range []int{2, 3, 4} {
		m := locate(t, src, moved(at, func(i int) float64 {
			if i%share == 0 {
				return 0
			}
			return stop(i)
		}))
		for i := range at {
			if math.Abs(m.Start.At[i]-at[i]) > 12 || math.Abs(m.Stop.At[i]-at[i]-stop(i)) > 12 {
				t.Errorf("one in %d by its start: movement %d from %.1f to %.1f, want %.1f to %.1f", share, i, m.Start.At[i], m.Stop.At[i], at[i], at[i]+stop(i))
			}
		}
	}
}
