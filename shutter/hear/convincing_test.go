package hear

import (
	"math"
	"slices"
	"testing"
)

func TestWhatComesInTimeBeats(t *testing.T) {
	every := func(n int, period, jitter, span float64) (r *recordedClip, set []pair) {
		r = &recordedClip{}
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

func TestIntervalsKeepTimeThoughBeatsAreMissed(t *testing.T) {
	tests := []struct {
		name      string
		intervals []float64
		want      bool
	}{
		{"one beat each", []float64{1, 1.01, 1, 1.02, 1}, true},
		{"whole numbers of it", []float64{1, 3, 2, 1, 5.01}, true},
		{"the shortest holds two", []float64{2, 3, 2, 5, 3}, true},
		{"the shortest holds three", []float64{3, 4, 5, 4, 7}, true},
		{"one of six is out of time", []float64{1, 2, 1, 1.4, 1, 3}, true},
		{"two of five are", []float64{1, 2.3, 1, 1.4, 1}, false},
		{"as somebody winds and fires", []float64{3.1, 3.53, 2.84, 4.27, 3.29, 3.76}, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := inTime(tt.intervals, slices.Min(tt.intervals), 0.03); got != tt.want {
				t.Errorf("in time = %v, want %v", got, tt.want)
			}
		})
	}
}

func TestAClockThatLimpsKeepsTime(t *testing.T) {
	at := func(i int) float64 { return float64(i) + 0.05*float64(i%2) + 0.002*math.Sin(float64(5*i*i)) }
	wound := func(i int) float64 { return 2*float64(i) + 0.3*math.Sin(float64(5*i*i)) }
	tests := []struct {
		name string
		n    int
		at   func(i int) float64
		want bool
	}{
		{"the parts of its ticks and tocks", 14, at, true},
		{"eight tell too little of every other", 8, at, false},
		{"nobody winds so evenly", 14, wound, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r, set := &recordedClip{}, []pair(nil)
			for i := range tt.n {
				r.sounds = append(r.sounds, sound{at: tt.at(i)}, sound{at: tt.at(i) + 0.02})
				set = append(set, pair{open: 2 * i, close: 2*i + 1, span: 0.02})
			}
			if got := r.beats(set); got != tt.want {
				t.Errorf("beats = %v, want %v", got, tt.want)
			}
		})
	}
}

func TestWhatBuzzesDoesNotBeat(t *testing.T) {
	r, set := &recordedClip{}, []pair(nil)
	for i := range 6 {
		at := 2 * float64(i)
		r.sounds = append(r.sounds, sound{at: at}, sound{at: at + 1})
		set = append(set, pair{open: 2 * i, close: 2*i + 1, span: 1, margin: 20})
	}
	if !r.beats(set) {
		t.Error("what tocks half way is no clock")
	}
	for i := range 4 {
		set[i].buzz = 6
	}
	if r.beats(set) {
		t.Error("a shutter whose escapement buzzed four times of six is a clock")
	}
}
