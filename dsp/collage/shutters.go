package collage

import "earshot/dsp/known"

// shutters are the kinds that differ by the shutter and how it is fired.
func shutters() []kind {
	return []kind{
		with("leaf", known.Leaf, nil),
		with("leaf, older series", known.Leaf, func(s *scene) { s.older = true }),
		with("leaf, big", known.Leaf, func(s *scene) { s.big = true }),
		with("leaf without a buzz", known.Leaf, func(s *scene) { s.silent = true; s.older = true }),
		with("leaf, far off its marks", known.Leaf, func(s *scene) { s.off = 1.5 }),
		with("leaf, fast speeds too", known.Leaf, func(s *scene) { s.first = 4; s.most = 8 }),
		with("leaf, from 4 s", known.Leaf, func(s *scene) { s.first, s.most = 0, 3 }),
		with("leaf, once a speed", known.Leaf, func(s *scene) { s.least, s.most = 1, 1 }),
		with("leaf, ten times a speed", known.Leaf, func(s *scene) { s.least, s.most, s.first = 6, 10, 3 }),
		with("leaf, loud ratchet", known.Leaf, func(s *scene) { s.winding = ratchet }),
		with("leaf, one stroke of a lever", known.Leaf, func(s *scene) { s.winding = stroke }),
		with("leaf, cocking lever", known.Leaf, func(s *scene) { s.winding = lever; s.older = true }),
		with("leaf, self-timer", known.Leaf, func(s *scene) { s.least, s.most = 1, 2; s.before = selfTimer }),
		with("leaf, bulb between", known.Leaf, func(s *scene) { s.between = bulb }),
		with("leaf, second camera", known.Leaf, func(s *scene) { s.between = secondCamera }),
		with("reflex", known.Reflex, nil),
		with("reflex, older series", known.Reflex, func(s *scene) { s.older = true }),
		with("reflex, ratchet", known.Reflex, func(s *scene) { s.winding = ratchet; s.least = 3 }),
		with("reflex, far off its marks", known.Reflex, func(s *scene) { s.off = 1.2; s.winding = stroke }),
		with("focal-plane", known.FocalPlane, nil),
		with("focal-plane, no mirror", known.FocalPlane, func(s *scene) { s.rangefinder = true }),
		with("focal-plane, fast speeds too", known.FocalPlane, func(s *scene) { s.first = 4; s.winding = stroke }),
	}
}

// selfTimer runs down before a firing, some of the time.
func selfTimer(t *take, _ body, at float64) float64 {
	if !t.chance(0.4) {
		return at
	}
	tick := t.voice(click, 1, t.ratio(0.004, 0.015))
	end, gain := at+t.between(4, 10), t.gain(-26, -8)
	begin, wait := at, 1/t.ratio(12, 60)
	for at < end {
		t.play(t.shot(tick), at, gain*t.gain(-2, 2))
		at += t.about(wait, 0.03)
		if end-at < 2 {
			at += wait * t.between(-0.3, 0) // it speeds up
		}
	}
	t.heard("self-timer", begin, at, gain)
	return at + t.between(0.02, 0.15)
}

// bulb is a firing at no mark, some of the time.
func bulb(t *take, b body, at float64) float64 {
	if !t.chance(0.4) {
		return at
	}
	return t.fire(b, shot{held: t.ratio(0.25, 4), lazy: 1}, at+t.between(0.5, 1)) + 0.5
}

// secondCamera is tried in between, some of the time.
func secondCamera(t *take, _ body, at float64) float64 {
	if !t.chance(0.4) {
		return at
	}
	another := t.body(plain(pick(t.draw, []known.Kind{known.Leaf, known.FocalPlane})))
	for range t.whole(1, 2) {
		at = t.fire(another, shot{held: t.ratio(0.01, 0.6), lazy: 1}, at+t.between(0.4, 1)) + 0.4
	}
	return at
}
