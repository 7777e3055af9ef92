package clock

import (
	"math"
	"slices"
)

// point is a tick: its number on the clock and how much later it came than on a
// recorder whose clock is right, s.
type point struct{ k, late float64 }

// Windows are how wide a stretch of the beat is that holds the ticks of one kind, as a
// share of the beat. The wide one holds all of a tick, which is a burst of several
// sounds in 45 ms of a second, any of which may be picked for it; the narrow one holds
// one of these, and need only be wider than that scatters.
const wide, narrow = 0.01, 0.002

// ticks finds the ticks among the onsets, and the tocks half way between two ticks, if
// they are told apart; rough is how many were heard in all, whichever of its sounds was
// picked. Time is folded at twice the beat, at every rate that may be: the right one is
// that at which most onsets fall into one window.
func ticks(onsets []float64, every float64) (tick, tock []point, rough int) {
	span := onsets[len(onsets)-1] - onsets[0]
	period := func(e float64) float64 { return 2 * every * (1 + e) }
	first := sharpest(-largest, largest, wide*every/span, func(e float64) (ridge, ridge) {
		tick := densest(onsets, period(e), wide*every, 0, period(e))
		return tick, densest(onsets, period(e), wide*every, tick.phase+0.35*period(e), 0.3*period(e))
	})
	reach := wide * every / span
	best := sharpest(first.e-reach, first.e+reach, narrow*every/span, func(e float64) (ridge, ridge) {
		near := func(r ridge) ridge {
			return densest(onsets, period(e), narrow*every, r.phase-wide*every, 2*wide*every)
		}
		return near(first.tick), near(first.tock)
	})
	along := func(f folding, r ridge, share, half float64) []point {
		return along(onsets, r.phase, period(f.e), share*every, every, half)
	}
	rough = len(along(first, first.tick, 2*wide, 0)) + len(along(first, first.tock, 2*wide, 1))
	best.tock.phase = best.tick.phase + positive(best.tock.phase-best.tick.phase, period(best.e)) // the tock after its tick
	return along(best, best.tick, narrow, 0), along(best, best.tock, narrow, 1), rough
}

// folding is time folded at twice the beat of a clock that runs by e.
type folding struct {
	e          float64
	tick, tock ridge
}

// sharpest returns the folding with most onsets in its two windows, of those between two
// rates; step moves the last tick by a window against the first.
func sharpest(from, to, step float64, fold func(e float64) (tick, tock ridge)) folding {
	var best folding
	for e := from; e <= to+step/4; e += step / 2 {
		tick, tock := fold(e)
		if tick.n+tock.n > best.tick.n+best.tock.n {
			best = folding{e, tick, tock}
		}
	}
	return best
}

// ridge is a place in the folded beat where ticks lie, and how many.
type ridge struct {
	n     int
	phase float64
}

// densest returns the middle of the window that most onsets fall into when time is
// folded at the period, of those whose middle lies within length from a phase on.
func densest(onsets []float64, period, width, from, length float64) ridge {
	phases := make([]float64, 0, 2*len(onsets))
	for _, t := range onsets {
		if p := positive(t-from, period); p <= length {
			phases = append(phases, p)
		}
	}
	slices.Sort(phases)
	if length >= period { // round the circle once more
		for _, p := range phases {
			phases = append(phases, p+period)
		}
	}
	var best ridge
	first := 0
	for last, p := range phases {
		for p-phases[first] > width {
			first++
		}
		if n := last - first + 1; n > best.n {
			best = ridge{n: n, phase: positive(from+(p+phases[first])/2, period)}
		}
	}
	return best
}

func positive(x, period float64) float64 { return x - period*math.Floor(x/period) }

// along returns the onset nearest to the phase in each period, where there is one within
// the width. Those at the middle of the period are numbered half a period further on.
func along(onsets []float64, phase, period, width, every, half float64) []point {
	var out []point
	nearest := math.Inf(1)
	for _, t := range onsets {
		turn := math.Round((t - phase) / period)
		off := math.Abs(t - phase - turn*period)
		if off > width {
			continue
		}
		k := 2*turn + half
		p := point{k, t - k*every}
		switch last := len(out) - 1; {
		case last < 0 || out[last].k != k:
			out, nearest = append(out, p), off
		case off < nearest:
			out[last], nearest = p, off
		}
	}
	return out
}
