package impact

import "math"

// winder says how the shutter is wound or cocked.
type winder struct {
	way    string // "ratchet", "stroke", "lever", "none"
	level  float64
	clicks int
	apart  float64 // s
	pawl   body
	latch  body
}

// winder draws a way to wind.
func (d dice) winder() winder {
	return winder{
		way:   one(d, "ratchet", "ratchet", "stroke", "lever", "lever", "none"),
		level: d.in(-10, 8), clicks: d.count(8, 20), apart: d.in(0.018, 0.05),
		pawl:  joined(d.body(matter{1200, 13000, 16, d.in(0.001, 0.005), 0.6}), d.body(matter{90, 900, 6, 0.02, 0.7}).scaled(-14)),
		latch: joined(d.body(matter{700, 8000, 16, d.in(0.002, 0.007), 0.6}), d.body(matter{90, 700, 6, 0.03, 0.7}).scaled(-8)),
	}
}

// wind winds from a true time on, and returns when that is over.
func (s *scene) wind(on place, w winder, at float64) float64 {
	end := at
	switch w.way {
	case "ratchet":
		end = s.ratchet(on, w, at)
	case "stroke":
		s.strike(on, w.latch, at, w.level, s.ratio(0.0001, 0.0006))
		end = at + 0.03
	case "lever":
		end = s.lever(on, w, at)
	case "none":
		return at
	}
	s.other("winding", at, end)
	return end
}

// ratchet makes a run of clicks that are all alike, and a latch.
func (s *scene) ratchet(on place, w winder, at float64) float64 {
	t := at
	hurry := s.about(0.08)
	clicks := w.clicks + s.count(-1, 1)
	for i := range clicks {
		pace := 1 + 0.5*math.Pow(2*float64(i)/float64(clicks)-1, 2)
		s.strike(on, w.pawl, t, w.level+0.8*s.NormFloat64(), 0.00012)
		t += w.apart * hurry * pace * s.about(0.04)
	}
	s.strike(on, w.latch, t, w.level+2, 0.0003)
	return t + 0.03
}

// lever makes a stroke of the cocking lever: springs slide, a catch falls in, it returns.
func (s *scene) lever(on place, w winder, at float64) float64 {
	lasts := s.in(0.12, 0.4)
	s.strike(on, w.pawl, at, w.level-s.in(8, 18), 0.0004)
	s.rub(on, w.pawl, at, at+lasts, w.level-s.in(24, 34), swells)
	s.strike(on, w.latch, at+lasts, w.level, 0.0002)
	if s.chance(0.6) {
		back := at + lasts + s.in(0.1, 0.3)
		s.strike(on, w.latch, back, w.level-s.in(2, 12), 0.0004)
		return back + 0.03
	}
	return at + lasts + 0.03
}

// bump knocks the shutter against the table, or a hand against it.
func (s *scene) bump(at float64) {
	b := joined(s.body(matter{60, 700, 10, s.in(0.015, 0.05), 0.5}), s.body(matter{700, 5000, 8, 0.003, 0.5}).scaled(s.in(-24, -10)))
	level, knocks := s.in(-18, 4), s.count(1, 3)
	t := at
	for range knocks {
		s.strike(table, b, t, level+s.in(-6, 0), s.ratio(0.0006, 0.003))
		t += s.in(0.02, 0.15)
	}
	s.other("handling", at, t+0.05)
}

// fumble is the small noise of fingers and cloth.
func (s *scene) fumble(from, to float64) {
	b := s.body(matter{200, 7000, 10, 0.002, 0.8})
	s.rub(table, b, from, to, s.in(-42, -24), swells)
	s.other("handling", from, to)
}
