package impact

// limping ticks like a clock whose tock does not come half way: short, long, short, long.
func (s *scene) limping() {
	tick, tock := s.thing(1500, 12000, 0.002, 0.0001), s.thing(1200, 10000, 0.0025, 0.00014)
	period := one(s.dice, 0.4, 0.5, 1.0, 2.0)
	share, down := s.in(0.12, 0.42), s.in(-8, 4)
	s.other("clock", 0, s.end)
	s.beats(period, 0.0004, func(_ int, at float64) {
		s.hit(table, tick, at, 0)
		s.hit(table, tock, at+share*period, down)
	})
}

// metronome ticks, at times with a bell on the first of a bar, and changes its pace.
func (s *scene) metronome() {
	tick := s.thing(800, 9000, 0.004, 0.0002)
	bell := thing{s.string(s.in(2000, 3000), 0.3, 0.01, 6), 0.0002}
	bar := s.count(1, 6)
	alternates := s.in(0, 4)
	s.other("metronome", 0, s.end)
	s.beats(60/s.ratio(40, 208), 0.001, func(i int, at float64) {
		s.hit(table, tick, at, -alternates*float64(i%2))
		if bar > 1 && i%bar == 0 {
			s.hit(table, bell, at, -4)
		}
	})
}

// doors open and fall shut: handle, latch, thud, rattle.
func (s *scene) doors() {
	latch := s.thing(600, 8000, 0.006, 0.0003)
	leaf := thing{s.body(matter{50, 900, 16, 0.06, 0.6}), 0.002}
	s.every(0.8, 5, "door", func(at float64) float64 {
		s.hit(operator, latch, at, s.in(-8, 0))
		s.hit(operator, latch, at+s.in(0.1, 0.3), s.in(-10, -2))
		t := at + s.in(0.8, 2.5)
		s.slide(operator, leaf, at+0.4, 0.3, -30, swells)
		s.hit(operator, leaf, t, 3)
		s.hit(operator, latch, t+s.in(0.004, 0.03), -2)
		for range s.count(0, 4) {
			t += s.in(0.03, 0.09)
			s.hit(operator, latch, t, s.in(-18, -8))
		}
		return t - at
	})
}

// leverStrokes cocks a lever again and again, without firing.
func (s *scene) leverStrokes() {
	w := s.winder()
	w.way, w.level = one(s.dice, "lever", "stroke"), 0
	s.every(0.4, 3, "winding", func(at float64) float64 {
		if at > s.end-1.2 {
			return 1
		}
		end := at
		if w.way == "lever" {
			end = s.lever(table, w, at)
		} else {
			s.hit(table, thing{w.latch, 0.0003}, at, 0)
		}
		s.marked = append(s.marked, s.shown(end)-0.03)
		return end - at
	})
}

// ratchets winds on and on.
func (s *scene) ratchets() {
	w := s.winder()
	w.level = 0
	s.every(0.4, 4, "winding", func(at float64) float64 {
		if at > s.end-2 {
			return 1
		}
		s.marked = append(s.marked, s.shown(at))
		return s.ratchet(table, w, at) - at
	})
}

// claps claps hands, alone or in a rhythm.
func (s *scene) claps() {
	hand := thing{s.body(matter{500, 5000, 14, 0.003, 0.3}), 0.0004}
	s.every(0.3, 3, "claps", func(at float64) float64 {
		t, wait := at, s.ratio(0.12, 0.6)
		for range s.count(1, 9) {
			s.hit(operator, hand, t, s.in(-3, 0))
			t += wait * s.about(0.04)
		}
		return t - at
	})
}

// drips lets drops fall: a faint impact, and a bubble that rings a moment later.
func (s *scene) drips() {
	splash := thing{s.body(matter{2000, 12000, 10, 0.001, 0.5}), 0.0002}
	period := s.ratio(0.3, 1.6)
	s.other("dripping", 0, s.end)
	s.beats(period, s.in(0.005, 0.2), func(_ int, at float64) {
		s.hit(table, splash, at, s.in(-16, -8))
		bubble := thing{body{{s.in(1100, 2600), s.in(0.006, 0.02), 1}}, 0.0003}
		s.hit(table, bubble, at+s.in(0.008, 0.03), 0)
	})
}

// crowd lets several people speak in one rhythm of language.
func (s *scene) crowd(rhythm, voices int) {
	for range voices {
		v := s.rhythm(s.voice(), rhythm)
		s.every(0.15, 2.5, "speech", func(at float64) float64 {
			x := s.phrase(v, s.count(3, 18), s.rate)
			if at+float64(len(x))/s.rate > s.end {
				return s.end - at
			}
			s.add(operator, at, x, amplitude(s.in(-3, 3)))
			s.marked = append(s.marked, s.shown(at+0.1))
			return float64(len(x)) / s.rate
		})
	}
}
