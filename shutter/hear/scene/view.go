package scene

import (
	"math"

	"earshot/dsp"
)

// What a sound must rise over, in ms and dB.
const (
	recent   = 3    // ms: all that was heard so shortly before
	fadeSoon = 0.8  // dB a ms that a movement's own ringing falls by,
	fallen   = 18   // dB: until it has fallen so far and a room's echo is left,
	fadeLate = 0.12 // which falls by 60 dB in half a second
	audible  = 4.0  // dB over the noise floor from which anything counts
	least    = 6.0  // dB a sound rises at least
)

// floorTime is how long each value of the noise floor holds, values of a level; it is told
// by as much again on either side twice.
const floorTime = 500

// floorPart is the share of the time that is quieter than the noise floor.
const floorPart = 5

// view is a clip as the ears hear it.
type view struct {
	n     int     // values
	ms    float64 // a value lasts, about 1
	level [dsp.NumEars][]uint8
	floor [dsp.NumEars][]float32
	ref   [dsp.NumEars][]uint8 // what a sound must rise over, as levels are kept
	deaf  [dsp.NumEars]bool    // beyond what the clip holds
	db    [256]float32
}

func newView(l *dsp.Levels, step float64) *view {
	v := &view{n: len(l.Ears[0]), ms: 1000 * step}
	for q := range v.db {
		v.db[q] = float32(l.Level(uint8(q)))
	}
	for e := range v.level {
		v.level[e] = l.Ears[e]
		v.floor[e] = v.floors(l.Ears[e])
		v.deaf[e] = true
		for _, q := range l.Ears[e] {
			if q > 0 {
				v.deaf[e] = false
				break
			}
		}
		v.refer(e)
	}
	return v
}

// floors is the noise floor, dBFS, one value for each floorTime.
func (v *view) floors(x []uint8) (floor []float32) {
	for from := 0; from < len(x); from += floorTime {
		var count [256]int
		total := 0
		for _, q := range x[max(0, from-2*floorTime):min(len(x), from+3*floorTime)] {
			count[q]++
			total++
		}
		left := total / floorPart
		for q, n := range count {
			if left -= n; left < 0 {
				floor = append(floor, v.db[q])
				break
			}
		}
	}
	return floor
}

func (v *view) floorAt(e, t int) float64 {
	return float64(v.floor[e][min(max(t/floorTime, 0), len(v.floor[e])-1)])
}

// refer works out, for every time, the level that a sound then must rise over: the loudest
// of the last few ms, and what is left of what rang before.
func (v *view) refer(e int) {
	x := v.level[e]
	ref := make([]uint8, v.n)
	const half = 2 // values a dB
	soon, late := float32(0), float32(0)
	for t := range x {
		m := float32(x[max(0, t-2)])
		for s := max(0, t-recent); s < t-2; s++ {
			m = max(m, float32(x[s]))
		}
		if s := t - recent - 1; s >= 0 {
			soon = max(soon-half*fadeSoon, float32(x[s])-half*fadeSoon)
			late = max(late-half*fadeLate, float32(x[s])-half*fallen)
		}
		ref[t] = uint8(min(max(m, soon, late)+0.5, 255))
	}
	v.ref[e] = ref
}

// before is the level, dBFS, that a sound at t must rise over in an ear.
func (v *view) before(e, t int) float64 {
	t = min(max(t, 0), v.n-1)
	return math.Max(v.floorAt(e, t)+audible, float64(v.db[v.ref[e][t]]))
}

// max is the largest level in an ear from one time to before another, dBFS.
func (v *view) max(e, from, to int) float64 {
	from, to = max(from, 0), min(to, v.n)
	if from >= to {
		return -200
	}
	m := uint8(0)
	for _, q := range v.level[e][from:to] {
		m = max(m, q)
	}
	return float64(v.db[m])
}

// median is the level that half of the values between two times stay under, dBFS.
func (v *view) median(e, from, to int) float64 {
	const few = 3
	from, to = max(from, 0), min(to, v.n)
	if to-from < few {
		return v.floorAt(e, from)
	}
	var count [256]int
	for _, q := range v.level[e][from:to] {
		count[q]++
	}
	left := (to - from) / 2
	for q, n := range count {
		if left -= n; left < 0 {
			return float64(v.db[q])
		}
	}
	return 0
}
