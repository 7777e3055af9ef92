package shutter

import (
	"math"
	"testing"
)

// spansOf are pairs of the given spans, s.
func spansOf(spans ...float64) (set []pair) {
	for _, s := range spans {
		set = append(set, pair{span: s})
	}
	return set
}

func TestSpansShowTheStepsOfADial(t *testing.T) {
	tests := []struct {
		name string
		set  []pair
		want bool
	}{
		{"three each at two speeds a stop apart", spansOf(1, 1.01, 0.99, 0.5, 0.5, 0.51), true},
		{"two each at three speeds", spansOf(1, 1, 0.5, 0.5, 0.25, 0.25), true},
		{"one speed only shows no step", spansOf(1, 1.01, 0.99, 1), false},
		{"one firing a speed repeats nothing", spansOf(1, 0.5, 0.25, 0.125), false},
		{"spans by chance", spansOf(0.9, 0.2, 0.21, 3, 0.05, 0.4), false},
		{"a third of a stop is no step", spansOf(1, 1, 1.26, 1.26), false},
		{"nothing", nil, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := stepwise(tt.set); got != tt.want {
				t.Errorf("stepwise = %v, want %v", got, tt.want)
			}
		})
	}
}

func TestWhatComesInTimeBeats(t *testing.T) {
	every := func(n int, period, jitter, span float64) (r *room, set []pair) {
		r = &room{}
		for i := range n {
			open := float64(i)*period + jitter*math.Sin(float64(5*i*i))
			r.sounds = append(r.sounds, sound{at: open}, sound{at: open + span})
			set = append(set, pair{open: 2 * i, close: 2*i + 1, span: span})
		}
		return r, set
	}
	tests := []struct {
		name           string
		n              int
		period, jitter float64
		want           bool
	}{
		{"a clock", 8, 1, 0.001, true},
		{"four are too few to tell", 4, 1, 0, false},
		{"five are enough", 5, 1, 0, true},
		{"nobody winds so evenly", 8, 2, 0.3, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r, set := every(tt.n, tt.period, tt.jitter, 0.25)
			if got := r.beats(set); got != tt.want {
				t.Errorf("beats = %v, want %v", got, tt.want)
			}
		})
	}
}
