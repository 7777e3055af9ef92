package impact

import (
	"earshot/dsp/known"
)

// shutter is one mechanism: what its parts are, and how they move.
type shutter struct {
	kind   known.Kind
	on     place
	latch  body // what starts a stroke
	blades body // what slides
	stop   body // what ends a stroke
	pallet body // what beats

	opening, closing stroke
	escapement       escapement
	off              float64 // stops from every mark
	spread           float64 // of its firings, stops
	mirror           mirror  // of a reflex or focal-plane body
	fault            fault
}

// stroke says how blades or a curtain move.
type stroke struct {
	travel float64 // s from start to stop
	level  float64 // of the louder sound
	start  float64 // level of the start against the stop; 0 and above only where it is sharp
	soft   float64 // contact at the start, s
	hard   float64 // contact at the stop, s
	slide  float64 // level of the sliding between
	single bool    // start and stop are one sound
	bounce float64 // s from the stop to a bounce; 0 for none
	falls  float64 // how much weaker the bounce is
}

// leaf draws a leaf shutter.
func (d dice) leaf() *shutter {
	sh := &shutter{kind: known.Leaf, off: d.in(-0.35, 0.5), spread: d.ratio(0.006, 0.035)}
	if d.chance(0.3) {
		sh.off = d.in(-0.8, 1.5)
	}
	d.parts(sh, 1)
	travel := d.in(0.002, 0.004)
	sh.opening = d.stroke(travel)
	sh.closing = d.stroke(travel * d.in(0.8, 1.25))
	sh.closing.single = sh.opening.single
	sh.opening.level, sh.closing.level = 0, 0
	if apart := d.in(-9, 9); apart < 0 {
		sh.opening.level = apart
	} else {
		sh.closing.level = -apart
	}
	sh.closing.bounce, sh.closing.falls = d.in(0.003, 0.006), d.in(4, 16)
	sh.escapement = d.escapement()
	return sh
}

// parts draws the bodies of a shutter, so many times larger than usual.
func (d dice) parts(sh *shutter, size float64) {
	barrel := d.body(matter{600 / size, 6500 / size, 12, d.in(0.003, 0.009), 0.6}).scaled(d.in(-14, -2))
	plank := d.body(matter{90, 1100, 9, d.in(0.015, 0.045), 0.7}).scaled(d.in(-26, -8))
	ring := d.body(matter{1600 / size, 11000 / size, 14, d.in(0.0015, 0.005), 0.7})
	leaves := d.body(matter{2500 / size, 19000 / size, 16, d.in(0.0008, 0.003), 0.6})
	post := d.body(matter{2800 / size, 16000 / size, 12, d.in(0.0008, 0.0025), 0.5}).scaled(d.in(-3, 4))
	sh.latch = joined(ring, barrel.scaled(-3), plank.scaled(-4))
	sh.blades = leaves
	sh.stop = joined(post, leaves.scaled(-4), ring.scaled(-6), barrel, plank)
	sh.pallet = d.body(matter{2500, 15000, 8, d.in(0.0005, 0.0016), 0.4})
}

// stroke draws a movement that lasts so many s.
func (d dice) stroke(travel float64) stroke {
	k := stroke{travel: travel, hard: d.ratio(0.00006, 0.0003), slide: d.in(-34, -20)}
	k.single = d.chance(0.12)
	if d.chance(0.5) {
		k.soften(d)
	} else {
		k.sharpen(d)
	}
	return k
}

// soften makes a stroke start with little sound.
func (k *stroke) soften(d dice) { k.start, k.soft = d.in(-22, -10), d.ratio(0.0002, 0.0008) }

// sharpen makes a stroke start about as loudly as it stops.
func (k *stroke) sharpen(d dice) { k.start, k.soft = d.in(-8, 5), d.ratio(0.00006, 0.0003) }

// move makes the sound of one stroke from a true time on, at so many times its speed, and
// returns what the recording shows of it, with the true time of its stop.
func (s *scene) move(sh *shutter, k stroke, at, speed float64) (known.Stroke, float64) {
	level := k.level + 0.6*s.NormFloat64() + 8*min(0, decibels(speed)/20)
	if k.single {
		start := s.strike(sh.on, sh.stop, at, level, k.hard)
		s.bounce(sh, k, at, level)
		return known.Stroke{Start: start, Stop: start}, at
	}
	stop := level - max(0, k.start)
	end := at + k.travel/speed*s.about(0.01)
	start := s.strike(sh.on, sh.latch, at, stop+k.start+0.5*s.NormFloat64(), k.soft)
	s.rub(sh.on, sh.blades, at, end, stop+k.slide, rises)
	shown := known.Stroke{Start: start, Stop: s.strike(sh.on, sh.stop, end, stop, k.hard)}
	s.bounce(sh, k, end, stop)
	return shown, end
}

// bounce makes the second hit of a stop, and at times a third.
func (s *scene) bounce(sh *shutter, k stroke, stop, level float64) {
	if k.bounce == 0 {
		return
	}
	after := k.bounce * s.about(0.05)
	s.strike(sh.on, sh.stop, stop+after, level-k.falls*s.about(0.1), k.hard*1.3)
	if s.chance(0.4) {
		s.strike(sh.on, sh.stop, stop+after*1.55, level-2*k.falls, k.hard*1.6)
	}
}
