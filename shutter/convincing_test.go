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
		span           float64
		want           bool
	}{
		{"a clock that tocks half way", 8, 1, 0.001, 0.5, true},
		{"the parts of its ticks", 8, 1, 0.001, 0.04, true},
		{"two are too few to tell", 2, 1, 0, 0.5, false},
		{"three are enough", 3, 1, 0, 0.5, true},
		{"nobody winds so evenly", 8, 2, 0.3, 0.5, false},
		{"what closes long before half the beat is a shutter fired in time", 8, 3, 0, 0.25, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r, set := every(tt.n, tt.period, tt.jitter, tt.span)
			if got := r.beats(set); got != tt.want {
				t.Errorf("beats = %v, want %v", got, tt.want)
			}
		})
	}
}
