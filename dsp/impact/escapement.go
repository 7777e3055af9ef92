package impact

// escapement is the gear train and the pallet that delay the closing.
type escapement struct {
	beats   float64 // a second
	level   float64 // of the louder beats, against the closing
	limps   float64 // share by which every other beat comes late
	uneven  float64 // dB by which every other beat is weaker
	drops   float64 // nominal time in s from which on up the pallet is in
	hiss    float64 // level of the gears without pallet; 0 for none
	brake   bool    // air instead of a pallet
	settles float64 // share by which the beats are slower at first
}

// escapement draws one with a pallet.
func (d dice) escapement() escapement {
	e := escapement{
		beats: d.ratio(60, 600), level: d.in(-35, -20),
		limps: d.in(-0.15, 0.15), uneven: d.in(0, 6),
		drops: d.ratio(1/26.0, 1/7.5), settles: d.in(0, 0.06),
	}
	if d.chance(0.6) {
		e.hiss = d.in(-50, -38)
	}
	return e
}

// pause is a stretch without beats, in true s.
type pause struct{ from, to float64 }

// buzz sounds between two true times, and returns how many beats/s it has at its start.
func (s *scene) buzz(sh *shutter, nominal, from, to float64, slower float64, rest pause) float64 {
	e := sh.escapement
	level := sh.closing.level
	if e.brake || nominal < e.drops*0.999 {
		if e.hiss != 0 {
			s.rub(sh.on, sh.pallet, from, to, level+e.hiss, swells)
		}
		return 0
	}
	beats := e.beats * slower * s.about(0.01)
	if to-from < 1.5/beats {
		return 0
	}
	tick := true
	for t := from + 0.5/beats; t < to-0.3/beats; tick = !tick {
		if t < rest.from || t > rest.to {
			s.beat(sh, t, level+e.level, tick)
		}
		wait := (1 + 0.01*s.NormFloat64()) / (beats * (1 - e.settles*max(0, 1-(t-from)/0.1)))
		t += wait * (1 + e.limps*sign(tick))
	}
	return beats * (1 - e.settles)
}

// beat makes one sound of the pallet.
func (s *scene) beat(sh *shutter, at, level float64, tick bool) {
	if !tick {
		level -= sh.escapement.uneven
	}
	s.strike(sh.on, sh.pallet, at, level+0.7*s.NormFloat64(), 0.00008)
}

func sign(plus bool) float64 {
	if plus {
		return 1
	}
	return -1
}
