package impact

import "earshot/dsp/known"

// mirror is what moves in a body besides the shutter.
type mirror struct {
	plate body
	level float64
	rises float64 // s from the release until it hits its stop
	waits float64 // s from the release to the opening
	falls float64 // s until flaps or mirror come back
}

// plate draws the body of a mirror and what it hits.
func (d dice) plate() body {
	return joined(
		d.body(matter{110, 1500, 14, d.in(0.01, 0.035), 0.6}),
		d.body(matter{1500, 9000, 10, d.in(0.001, 0.004), 0.6}).scaled(d.in(-22, -8)))
}

// reflex draws a leaf shutter in a reflex body, viewed through open blades.
func (d dice) reflex() *shutter {
	sh := d.leaf()
	sh.kind = known.Reflex
	d.parts(sh, d.in(1, 1.5))
	sh.mirror = mirror{
		plate: d.plate(), level: d.in(-6, 6),
		rises: d.in(0.012, 0.035), waits: d.in(0.06, 0.1), falls: d.ratio(0.1, 0.8),
	}
	return sh
}

// fire releases the shutter at a true time, and returns the firing with the true time at
// which all is quiet.
func (s *scene) fire(sh *shutter, at, nominal float64, f fate) (known.Firing, float64) {
	switch sh.kind {
	case known.Reflex:
		return s.fireReflex(sh, at, nominal, f)
	case known.FocalPlane:
		return s.fireCurtains(sh, at, nominal, f)
	}
	return s.expose(sh, at, nominal, f)
}

// fireReflex shuts the blades, swings the mirror away, exposes, and lets flaps fall.
func (s *scene) fireReflex(sh *shutter, at, nominal float64, f fate) (known.Firing, float64) {
	m := sh.mirror
	open := at + m.waits*s.about(0.02)
	s.move(sh, sh.closing, at, 1)
	thump := at + m.rises*s.about(0.03)
	s.strike(sh.on, m.plate, thump, m.level, s.ratio(0.0004, 0.0015))
	s.strike(sh.on, m.plate, thump+s.in(0.004, 0.012), m.level-s.in(4, 14), 0.001)
	s.other("release", at, thump+0.02)
	fired, end := s.expose(sh, open, nominal, f)
	flaps := end + m.falls*s.about(0.25)
	s.strike(sh.on, m.plate, flaps, m.level-s.in(3, 14), s.ratio(0.0005, 0.002))
	s.strike(sh.on, m.plate, flaps+s.in(0.015, 0.05), m.level-s.in(8, 20), 0.001)
	s.other("flaps", flaps, flaps+0.06)
	return fired, flaps + 0.06
}

// rewound reopens the blades for viewing at the end of winding.
func (s *scene) rewound(sh *shutter, at float64) float64 {
	if sh.kind != known.Reflex {
		return at
	}
	open := at + s.in(-0.02, 0.06)
	_, end := s.move(sh, sh.opening, open, s.in(0.7, 1))
	s.other("winding", open, end+0.01)
	return max(at, end+0.01)
}
