package dsp

import "earshot/dsp/internal/num"

// The trigger compares the energy of one hop with the mean of those before it.
// Ratios of 3 to fire and 1.5 to re-arm are the usual ones of an STA/LTA trigger
// (the defaults of an operational seismic picker); for white noise in hops of 24
// samples a ratio of 3 comes by chance about once in a million hops.
const (
	triggerOn  = 3.0
	triggerOff = 1.5
	ltaHops    = 6 // 3 ms: shorter than the 5 ms at which a bounce follows
)

// hysteresis switches on above one threshold and off only below a lower one.
type hysteresis struct {
	on, off float64
	active  bool
}

// push takes the next value of a characteristic function and tells whether it has
// just switched on.
func (h *hysteresis) push(value float64) bool {
	if h.active {
		h.active = value >= h.off
		return false
	}
	h.active = value > h.on
	return h.active
}

// trigger is an STA/LTA trigger over hop energies. The STA is one hop; the LTA is
// the mean of ltaHops hops, of which the last is left out since a sound may
// begin inside it, and not less than the noise floor.
type trigger struct {
	past  [ltaHops + 1]float64 // ring of mean squares
	next  int
	sum   float64
	floor floor
	state hysteresis
}

// start fills the trigger with the energy of the first hop, as if it had always been so.
func (t *trigger) start(energy float64) {
	for i := range t.past {
		t.past[i] = energy
	}
	t.sum = energy * float64(len(t.past))
	t.floor.level = max(energy, num.Silence)
	t.state = hysteresis{on: triggerOn, off: triggerOff}
}

// push takes the mean square of the next hop and tells whether a sound begins in it.
func (t *trigger) push(energy float64) bool {
	last := t.past[(t.next+ltaHops)%(ltaHops+1)]
	lta := max((t.sum-last)/ltaHops, t.floor.level)
	t.floor.push(energy)
	t.sum += energy - t.past[t.next]
	t.past[t.next] = energy
	if t.next++; t.next > ltaHops {
		t.next = 0
		t.sum = 0 // afresh, lest rounding errors pile up over hours
		for _, e := range t.past {
			t.sum += e
		}
	}
	return t.state.push(energy / lta)
}

// floor follows the noise floor: a running low quantile of the hop energies.
// It moves by a small step down when a hop is quieter and by a smaller one up
// when it is louder, which balances where floorQuantile of the hops are quieter
// (stochastic approximation of a quantile on a log scale, after Robbins and
// Monro 1951).
type floor struct{ level float64 }

const (
	floorQuantile = 0.3
	floorStep     = 0.005 // of the level, a hop: 30 dB a second down and 13 up at the most
)

func (f *floor) push(energy float64) {
	if energy < f.level {
		f.level = max(f.level*(1-floorStep*(1-floorQuantile)), num.Silence)
		return
	}
	f.level *= 1 + floorStep*floorQuantile
}
