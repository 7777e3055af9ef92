package impact

import "earshot/dsp/known"

// focalPlane draws a shutter of two curtains that sound alike.
func (d dice) focalPlane() *shutter {
	sh := &shutter{kind: known.FocalPlane, off: d.in(-0.35, 0.5), spread: d.ratio(0.006, 0.035)}
	d.parts(sh, d.in(1, 1.6))
	k := stroke{
		travel: d.in(0.010, 0.020), start: d.in(-22, -6), soft: d.ratio(0.0001, 0.0006),
		hard: d.ratio(0.00008, 0.0004), slide: d.in(-34, -22),
	}
	sh.opening, sh.closing = k, k
	sh.closing.travel *= d.in(0.93, 1.07)
	sh.closing.level += d.in(-4, 4)
	sh.closing.bounce, sh.closing.falls = d.in(0.003, 0.007), d.in(6, 18)
	sh.escapement = d.escapement()
	sh.escapement.drops = d.ratio(1/60.0, 1/12.0)
	sh.mirror = mirror{
		plate: d.plate(), level: d.in(-8, 6), rises: d.in(0.02, 0.045),
		waits: d.in(0.05, 0.09), falls: d.in(-0.004, 0.04),
	}
	if d.chance(0.3) {
		sh.mirror.falls = d.in(0.03, 0.12)
	}
	return sh
}

// fireCurtains swings the mirror up, runs the curtains, and lets the mirror return over or
// after the stop of the second.
func (s *scene) fireCurtains(sh *shutter, at, nominal float64, f fate) (known.Firing, float64) {
	m := sh.mirror
	s.strike(sh.on, sh.latch, at, m.level-s.in(10, 20), 0.0003)
	up := at + m.rises*s.about(0.03)
	s.strike(sh.on, m.plate, up, m.level, s.ratio(0.0003, 0.001))
	s.other("mirror", at, up+0.02)
	fired, end := s.expose(sh, at+m.waits*s.about(0.02), nominal, f)
	back := end + m.falls + 0.004*s.Float64()
	s.strike(sh.on, m.plate, back, m.level-s.in(0, 5), s.ratio(0.0004, 0.001))
	s.strike(sh.on, m.plate, back+s.in(0.006, 0.015), m.level-s.in(6, 16), 0.001)
	s.other("mirror", back, back+0.03)
	return fired, back + 0.03
}
