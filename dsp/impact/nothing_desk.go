package impact

// pens clicks a pen in and out: each a spring, a cam and a stop.
func (s *scene) pens() {
	cam := s.thing(1800, 14000, 0.002, 0.00012)
	stop := s.thing(1200, 11000, 0.003, 0.0002)
	down := s.in(-10, 6)
	s.every(0.15, 3, "pen", func(at float64) float64 {
		travel := s.in(0.006, 0.03)
		held := s.ratio(0.05, 1)
		s.pair(cam, stop, at, travel, down)
		s.pair(stop, cam, at+held, travel*s.in(0.7, 1.4), -down/2)
		return held + travel
	})
}

// switches turns a light on and off.
func (s *scene) switches() {
	rocker := s.thing(700, 9000, 0.004, 0.0003)
	spring := s.thing(1500, 12000, 0.002, 0.0001)
	s.every(0.2, 4, "switch", func(at float64) float64 {
		s.hit(table, spring, at, s.in(-16, -6))
		s.hit(table, rocker, at+s.in(0.004, 0.015), 0)
		return 0.02
	})
}

// stapler presses, cuts and lets go.
func (s *scene) stapler() {
	arm := s.thing(300, 7000, 0.006, 0.0006)
	s.every(0.4, 3, "stapler", func(at float64) float64 {
		s.slide(table, arm, at, 0.12, -30, rises)
		s.hit(table, arm, at+0.12, 0)
		back := s.in(0.1, 0.35)
		s.hit(table, arm, at+0.12+back, s.in(-12, -4))
		return 0.15 + back
	})
}

// mouse clicks once, or twice in quick succession: each a press and a release.
func (s *scene) mouse() {
	press := s.thing(2000, 12000, 0.0015, 0.00012)
	release := s.thing(2600, 13000, 0.0015, 0.00012)
	down := s.in(-8, 3)
	s.every(0.2, 4, "mouse", func(at float64) float64 {
		held := s.in(0.06, 0.13)
		s.pair(press, release, at, held, down)
		if s.chance(0.5) {
			again := s.in(0.13, 0.28)
			s.pair(press, release, at+again, held*s.about(0.1), down)
			return again + held
		}
		return held
	})
}

// keyboard types: each key goes down and comes up.
func (s *scene) keyboard() {
	keys := []thing{s.thing(500, 8000, 0.004, 0.0004), s.thing(600, 9000, 0.004, 0.0004), s.thing(400, 7000, 0.005, 0.0006)}
	s.every(0.5, 3, "keyboard", func(at float64) float64 {
		t := at
		for range s.count(3, 30) {
			s.pair(one(s.dice, keys...), one(s.dice, keys...), t, s.in(0.05, 0.12), -9)
			t += s.ratio(0.08, 0.3)
		}
		return t - at
	})
}

// typewriter types lines with a bell and a carriage that returns over a ratchet.
func (s *scene) typewriter() {
	lever := s.thing(500, 9000, 0.006, 0.0002)
	bell := thing{s.string(s.in(1800, 2600), 0.4, 0.02, 8), 0.0002}
	pawl := s.thing(1500, 10000, 0.003, 0.0002)
	step := s.in(-20, -8)
	s.every(0.3, 1.5, "typewriter", func(at float64) float64 {
		t := at
		for range s.count(12, 40) {
			s.pair(lever, pawl, t, s.in(0.015, 0.045), step)
			t += s.ratio(0.09, 0.35)
		}
		s.hit(table, bell, t, -10)
		t += s.in(0.3, 0.8)
		for range 35 {
			s.hit(table, pawl, t, -12)
			t += s.in(0.008, 0.014)
		}
		s.hit(table, lever, t, 3)
		return t - at
	})
}

// zips opens and closes zips: teeth that run faster and slower.
func (s *scene) zips() {
	tooth := s.thing(1800, 14000, 0.0015, 0.0001)
	s.every(0.4, 4, "zip", func(at float64) float64 {
		lasts, speed := s.ratio(0.15, 1.2), s.ratio(90, 400)
		t := at
		for t < at+lasts {
			u := (t - at) / lasts
			s.hit(table, tooth, t, -14+10*swells(u))
			t += s.about(0.08) / (speed * (0.25 + swells(u)))
		}
		s.hit(table, tooth, t, s.in(-6, 3))
		return lasts
	})
}

// jingle shakes a bunch of keys.
func (s *scene) jingle() {
	keys := []thing{s.thing(2500, 16000, 0.03, 0.0001), s.thing(2000, 15000, 0.04, 0.0001), s.thing(3000, 17000, 0.025, 0.0001)}
	s.every(0.3, 4, "keys", func(at float64) float64 {
		t := at
		for range s.count(5, 40) {
			s.hit(table, one(s.dice, keys...), t, s.in(-14, 0))
			t += s.ratio(0.008, 0.15)
		}
		return t - at
	})
}

// cutlery lays spoons down, which bounce faster and faster.
func (s *scene) cutlery() {
	spoon := thing{s.string(s.in(1200, 2500), 0.08, 0.03, 8), 0.0002}
	s.every(0.4, 4, "cutlery", func(at float64) float64 {
		t, wait, level := at, s.in(0.05, 0.16), 0.0
		for wait > 0.006 {
			s.hit(table, spoon, t, level)
			t += wait
			wait *= s.in(0.6, 0.8)
			level -= s.in(1, 4)
		}
		return t - at
	})
}
