package impact

import "math"

// music plays a tune on plucked or struck strings over chords.
func (s *scene) music() {
	beat := 60 / s.ratio(60, 160)
	scale := []int{0, 2, 4, 5, 7, 9, 11, 12, 14, 16}
	root := s.ratio(110, 260)
	rings := s.ratio(0.08, 0.45)
	soft := s.ratio(0.0002, 0.002)
	s.other("music", 0, s.end)
	s.beats(beat/2, 0.01, func(i int, at float64) {
		if i%8 == 0 {
			for _, up := range []int{0, 4, 7} {
				s.note(root/2*semitones(up), rings*1.5, soft, at, -6)
			}
		}
		if s.chance(0.7) {
			s.note(root*semitones(one(s.dice, scale...)), rings, soft, at, 0)
		}
	})
}

// note plucks a string.
func (s *scene) note(pitch, rings, contact, at, level float64) {
	s.hit(operator, thing{s.string(pitch, rings, 0.0002, 12), contact}, at, level)
}

func semitones(up int) float64 { return math.Exp2(float64(up) / 12) }

// drums plays a pattern on wood, skin and metal.
func (s *scene) drums() {
	kit := []thing{
		{s.body(matter{50, 500, 8, 0.12, 0.7}), 0.002},
		s.thing(180, 7000, 0.03, 0.0004),
		{s.body(matter{900, 3500, 6, 0.012, 0.5}), 0.0002},
		{s.body(matter{3000, 16000, 18, 0.04, 0.3}), 0.0001},
	}
	beat := 60 / s.ratio(70, 180) / 4
	var pattern [16][4]bool
	for i := range pattern {
		pattern[i] = [4]bool{s.chance(0.25) || i%8 == 0, i%8 == 4 || s.chance(0.1), s.chance(0.2), i%2 == 0}
	}
	s.other("music", 0, s.end)
	s.beats(beat, 0.02, func(i int, at float64) {
		for k, plays := range pattern[i%16] {
			if plays {
				s.hit(operator, kit[k], at, s.in(-5, 0)-3*float64(k/3))
			}
		}
	})
}

// game plays the sounds of a game: blips, rising tones, shots, explosions.
func (s *scene) game() {
	s.every(0.1, 2, "game", func(at float64) float64 {
		switch s.IntN(4) {
		case 0:
			return s.blips(at)
		case 1:
			return s.sweep(at, s.ratio(200, 2000), s.ratio(200, 4000), s.ratio(0.05, 0.5))
		case 2:
			return s.sweep(at, s.ratio(1500, 5000), s.ratio(80, 300), s.ratio(0.04, 0.2))
		}
		boom := thing{s.body(matter{60, 4000, 16, 0.05, 0.4}), 0.0003}
		s.hit(operator, boom, at, 0)
		s.slide(operator, boom, at, 0.6, -14, fades)
		return 0.6
	})
}

// blips plays some square tones.
func (s *scene) blips(at float64) float64 {
	t, lasts := at, s.in(0.03, 0.12)
	root := s.ratio(300, 1200)
	for range s.count(1, 6) {
		f := root * semitones(one(s.dice, 0, 4, 7, 12, 16))
		s.sweep(t, f, f, lasts)
		t += lasts
	}
	return t - at
}

// sweep plays a square tone that goes from one pitch to another.
func (s *scene) sweep(at, from, to, lasts float64) float64 {
	if at+lasts > s.end-0.1 {
		return lasts
	}
	x := make([]float64, int(lasts*s.rate))
	phase := 0.0
	for i := range x {
		u := float64(i) / float64(len(x))
		phase += from * math.Pow(to/from, u) / s.rate
		x[i] = sign(math.Mod(phase, 1) < 0.5) * min(1, 400*u, 20*(1-u))
	}
	lowPass(9000, s.rate).run(x)
	s.marked = append(s.marked, s.add(operator, at, x, 0.5))
	return lasts
}

// still is a room in which next to nothing happens.
func (s *scene) still() {
	for range s.count(1, 4) {
		at := s.in(1, s.end-2)
		s.fumble(at, at+s.in(0.2, 0.8))
		s.marked = append(s.marked, s.shown(at+0.1))
	}
	s.bump(s.in(1, s.end-2))
}
