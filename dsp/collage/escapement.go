package collage

import "math"

// escapement delays the closing at slow speeds, and buzzes.
type escapement struct {
	rate   float64 // beats/s; 0: no buzz at any speed
	gain   float64
	drops  float64 // s: the pallet is out at times below
	hiss   float64 // gain of the gears while the pallet is out; 0: nothing
	drift  float64 // of the rate, over a second
	limp   float64 // of every other beat, in beats
	uneven float64 // of each beat, in beats
	ticks  [][]float64
}

// escapement draws one, with a few ticks, cut short from recorded clicks.
func (t *take) escapement() escapement {
	e := escapement{
		rate: t.ratio(60, 600), gain: t.gain(-35, -20), drops: t.ratio(1./25, 1./8),
		drift: t.between(-0.12, 0.04), limp: t.between(-0.12, 0.12), uneven: t.ratio(0.005, 0.04),
	}
	if t.chance(0.5) {
		e.hiss = t.gain(-48, -36)
	}
	a, b := t.voice(click, 1, t.ratio(0.003, 0.012)), t.voice(click, 1, t.ratio(0.003, 0.012))
	for range 4 {
		e.ticks = append(e.ticks, t.tick(a), t.tick(b))
	}
	return e
}

// tick is small: its lows are missing.
func (t *take) tick(v voice) []float64 {
	x := t.shot(v)
	highPass(x, t.rate, 900)
	p := peak(x)
	for i := range x {
		x[i] /= max(p, 1e-9)
	}
	return x
}

// buzz plays the escapement from s to end, standing still for pause s on the way, and
// returns the rate at its start, 0 if it is out, as it is at wanted times below e.drops.
func (t *take) buzz(e escapement, s, end, wanted, pause float64) float64 {
	if e.rate == 0 {
		return 0
	}
	rate, gain := e.rate, e.gain
	if wanted < e.drops {
		rate, gain = e.rate*t.between(1.5, 3), e.hiss
	}
	if gain == 0 {
		return 0
	}
	still := s + (end-pause-s)*t.between(0.2, 0.8)
	for i, at := 0, s; at < end; i++ {
		if pause > 0 && at > still {
			at, pause = at+pause, 0
			continue
		}
		wait := 1 / (rate * (1 + e.drift*(at-s)))
		limp := e.limp * float64(i%2)
		t.play(e.ticks[2*t.IntN(4)+i%2], at+wait*(limp+e.uneven*t.NormFloat64()), gain*t.gain(-3, 3))
		at += max(wait, 1e-3)
	}
	if wanted < e.drops {
		return 0
	}
	return rate
}

// highPass takes what is below the corner out of x, 12 dB an octave (Butterworth).
func highPass(x []float64, rate, corner float64) {
	w := 2 * math.Pi * corner / rate
	alpha := math.Sin(w) / math.Sqrt2
	c := math.Cos(w)
	a0 := 1 + alpha
	b0, b1 := (1+c)/2/a0, -(1+c)/a0
	a1, a2 := -2*c/a0, (1-alpha)/a0
	var x1, x2, y1, y2 float64
	for i, v := range x {
		y := b0*v + b1*x1 + b0*x2 - a1*y1 - a2*y2
		x1, x2, y1, y2 = v, x1, y, y1
		x[i] = y
	}
}
