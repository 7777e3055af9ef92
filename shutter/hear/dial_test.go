package hear

import (
	"math"
	"math/rand/v2"
	"testing"
)

// spansOf are pairs of the given spans, s.
func spansOf(spans ...float64) (set []pair) {
	for _, s := range spans {
		set = append(set, pair{span: s})
	}
	return set
}

// pressed are spans of a key pressed and let go, spread by half a stop.
func pressed(n int) (set []pair) {
	rng := rand.New(rand.NewPCG(5, 6))
	for range n {
		set = append(set, pair{span: 0.1 * math.Exp2(0.5*rng.NormFloat64())})
	}
	return set
}

func TestSpansShowTheStepsOfADial(t *testing.T) {
	tests := []struct {
		name     string
		set      []pair
		from, to float64
	}{
		{"three each at two speeds a stop apart speak for a dial", spansOf(1, 1.01, 0.99, 0.5, 0.5, 0.51), 3, 30},
		{"two each at three speeds do", spansOf(1, 1, 0.5, 0.5, 0.25, 0.25), 3, 30},
		{"three each at the older speeds do", spansOf(1, 1, 1, 0.5, 0.5, 0.5, 0.2, 0.2, 0.2, 0.1, 0.1, 0.1), 3, 40},
		{"one hesitating firing among them does not undo it", spansOf(1, 1.3, 0.99, 0.5, 0.5, 0.51, 0.25, 0.25, 0.25), 3, 40},
		{"a shutter that repeats nowhere still goes in them", spansOf(0.7, 1.2, 0.85, 1.1, 0.6, 0.42, 0.7, 0.5, 0.33, 0.24, 0.2, 0.29, 0.15, 0.11, 0.17), 1, 10},
		{"one speed only says nothing", spansOf(1, 1.01, 0.99, 1), -1.5, 1.5},
		{"a clock says nothing", spansOf(1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1), -4, 1.5},
		{"what follows one that closed early is like those before it", spansOf(0.52, 0.18, 0.515, 0.126, 0.125, 0.126), -2.5, 3},
		{"strokes of a lever by hand speak against it", spansOf(0.17, 0.52, 0.49, 0.27, 0.4, 0.21, 0.33, 0.58, 0.24, 0.45), -30, -4},
		{"two firings a step apart say nothing", spansOf(1, 0.5), 0, 0},
		{"spans by chance speak against it", spansOf(0.9, 0.2, 0.21, 3, 0.05, 0.4, 0.31, 1.4), -30, -1},
		{"a key pressed and let go does", pressed(20), -90, -5},
		{"knocks at two paces half a stop apart hardly speak for it", spansOf(0.308, 0.299, 0.294, 0.414, 0.424, 0.449, 0.291), -10, 3},
		{"one pair says nothing", spansOf(1), 0, 0},
		{"none says nothing", nil, 0, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := dialOdds(tt.set); got < tt.from || got > tt.to {
				t.Errorf("odds of a dial %.1f, want %g to %g", got, tt.from, tt.to)
			}
		})
	}
}

func TestWhatLastsAlikeEachTimeIsSteady(t *testing.T) {
	tests := []struct {
		name string
		set  []pair
		want bool
	}{
		{"three at one speed", spansOf(1, 1.02, 0.99), true},
		{"and one that closed early among five", spansOf(1, 1.02, 0.99, 0.3, 1.01), true},
		{"two are too few", spansOf(1, 1), false},
		{"the parts of ticks", spansOf(0.02, 0.02, 0.0201, 0.02, 0.02), false},
		{"two speeds", spansOf(1, 1, 0.5, 0.5), false},
		{"a key", pressed(20), false},
		{"nothing", nil, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := steady(tt.set); got != tt.want {
				t.Errorf("steady = %v, want %v", got, tt.want)
			}
		})
	}
}
