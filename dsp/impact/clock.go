package impact

// wallClock draws a clock on the wall that ticks through the clip.
func (d dice) wallClock() func(*scene) {
	level, tocks := d.in(-30, -6), d.chance(0.4)
	period := one(d, 1.0, 0.5, 0.5, 0.4)
	return func(s *scene) {
		wheel := s.body(matter{900, 9000, 12, 0.003, 0.5})
		end := float64(s.length()) / s.rate / s.clock
		t := s.in(0, period)
		s.other("clock", t, end-0.02)
		for tick := true; t < end-0.02; tick = !tick {
			db := level + 0.4*s.NormFloat64()
			if tocks && !tick {
				db -= 4
			}
			s.strike(wall, wheel, t, db, 0.0002)
			t += period
		}
	}
}
