package main

import (
	"cmp"
	"math"

	"earshot/dsp/synth"
	"earshot/shutter"
)

// standing is how one way of finding onsets did, in one clip or in many.
type standing struct {
	firings count     // at window
	onsets  []count   // openings and closings alike, at each of windows
	closed  int       // true firings that closed
	errors  []float64 // of those timed by the onsets nearest to the true ones, s
}

func (s *standing) add(t standing) {
	s.firings.add(t.firings)
	if s.onsets == nil {
		s.onsets = make([]count, len(t.onsets))
	}
	for i, n := range t.onsets {
		s.onsets[i].add(n)
	}
	s.closed += t.closed
	s.errors = append(s.errors, t.errors...)
}

// ownStanding is this program's, by the firings it found.
func ownStanding(o *outcome) standing {
	heard := heardOnsets(o.found)
	s := better(func(e shutter.Edge) standing { return byOnsets(o.truth.Firings, heard, e) })
	s.firings = o.counts[len(o.counts)-1]
	return s
}

// heardOnsets are the openings and closings of firings found, s.
func heardOnsets(found []shutter.Firing) []float64 {
	var heard []float64
	for _, f := range found {
		heard = append(heard, f.Open)
		if f.Closed {
			heard = append(heard, f.Close)
		}
	}
	return heard
}

// yardstickStanding is that of bare onsets, made firings by pairs.
func yardstickStanding(truth []synth.Firing, heard []float64) standing {
	return better(func(e shutter.Edge) standing {
		prompt := withoutLag(truth, heard, e)
		s := byOnsets(truth, prompt, e)
		_, s.firings = score(truth, pairs(prompt, e), window)
		return s
	})
}

// better compares a clip's onsets with the true starts of the blades and with their stops. It
// returns the edge with more right onsets, or with equal numbers the one that is timed better.
func better(by func(e shutter.Edge) standing) standing {
	start, stop := by(shutter.EdgeStart), by(shutter.EdgeStop)
	last := len(windows()) - 1
	order := cmp.Or(
		cmp.Compare(stop.onsets[last].right, start.onsets[last].right),
		cmp.Compare(sizeOf(start.errors, 0.95), sizeOf(stop.errors, 0.95)),
	)
	if order > 0 {
		return stop
	}
	return start
}

// byOnsets holds the onsets heard against the true ones of an edge.
func byOnsets(truth []synth.Firing, heard []float64, e shutter.Edge) standing {
	var s standing
	var references []float64
	for _, t := range truth {
		open, close := onsets(t, e)
		references = append(references, open)
		if !t.Closes {
			continue
		}
		references = append(references, close)
		s.closed++
		o, c := nearest(heard, open), nearest(heard, close)
		if math.Abs(o-open) <= window && math.Abs(c-close) <= window {
			s.errors = append(s.errors, c-o-duration(t, e))
		}
	}
	for _, w := range windows() {
		s.onsets = append(s.onsets, countOnsets(references, heard, w))
	}
	return s
}

// mostLag is how far, s, the nearest onset heard may be from a true one to count for the lag.
const mostLag = 2 * window

// withoutLag moves all onsets so that their median error is none. A lag that is the
// same for all leaves every duration as it is.
func withoutLag(truth []synth.Firing, heard []float64, e shutter.Edge) []float64 {
	lag := medianLag(truth, heard, e)
	moved := make([]float64, len(heard))
	for i, t := range heard {
		moved[i] = t - lag
	}
	return moved
}

// medianLag is by how much, s, the onsets heard come after the true ones of an edge.
func medianLag(truth []synth.Firing, heard []float64, e shutter.Edge) float64 {
	var at []float64
	for _, t := range truth {
		open, close := onsets(t, e)
		at = append(at, open, close)
	}
	return lagBehind(at, heard)
}

// lagBehind is the median of how much, s, onsets heard come after those that are true.
func lagBehind(truth, heard []float64) float64 {
	var lags []float64
	for _, at := range truth {
		if lag := nearest(heard, at) - at; math.Abs(lag) <= mostLag {
			lags = append(lags, lag)
		}
	}
	return shutter.Median(lags)
}

// nearest is the value of x that lies nearest to t; +Inf if there is none.
func nearest(x []float64, t float64) float64 {
	best := math.Inf(1)
	for _, v := range x {
		if math.Abs(v-t) < math.Abs(best-t) {
			best = v
		}
	}
	return best
}
