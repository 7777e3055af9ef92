package shutter

import (
	"math"
	"testing"
)

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
