package collage

import "earshot/dsp/known"

// surrounded are the kinds that differ by what else is heard.
func surrounded() []kind {
	over := func(name string, shutter known.Kind, f func(t *take)) kind {
		return with(name, shutter, func(s *scene) { s.over = []func(*take){f} })
	}
	return []kind{
		with("leaf, speeds named aloud", known.Leaf, func(s *scene) { s.between = spokenBetween }),
		with("reflex, talk between", known.Reflex, func(s *scene) { s.between = spokenBetween }),
		over("leaf, talk over it", known.Leaf, (*take).talkOver),
		over("leaf, ticking clock", known.Leaf, (*take).wallClock),
		over("leaf, typing nearby", known.Leaf, (*take).typistNearby),
		over("focal-plane, doors and steps", known.FocalPlane, (*take).peopleAbout),
		over("leaf, music", known.Leaf, (*take).radio),
		over("leaf, bumps of the hand", known.Leaf, (*take).bumps),
		with("leaf, noise that isn't steady", known.Leaf, func(s *scene) { s.phone.live = true; s.quiet, s.loud = 20, 40 }),
		with("leaf, near the noise", known.Leaf, func(s *scene) { s.quiet, s.loud = 15, 22 }),
		with("reflex, near the noise", known.Reflex, func(s *scene) { s.quiet, s.loud = 15, 22 }),
	}
}

// spokenBetween says something, some of the time.
func spokenBetween(t *take, _ body, at float64) float64 {
	if !t.chance(0.5) {
		return at
	}
	return t.speech(pick(t.draw, languages()), at+t.between(0.1, 0.4), t.between(0.5, 2), t.gain(-16, 6)) + 0.1
}

func (t *take) talkOver() {
	tongue := pick(t.draw, languages())
	for at := t.between(0, 4); at < t.seconds()-3; at += t.ratio(0.5, 6) {
		at = t.speech(tongue, at, t.between(1, 3), t.gain(-22, 0))
	}
}

func (t *take) wallClock() {
	t.clock(pick(t.draw, []float64{1, 1, 0.5, 0.4, 0.2}), t.between(-0.1, 0.1), t.gain(-34, -13))
}

func (t *take) typistNearby() {
	t.typed(t.between(0, 8), t.seconds()-t.between(1, 10), t.between(20, 50), t.gain(-30, -14))
}

func (t *take) peopleAbout() {
	t.nowAndThen("door", door, 14, t.gain(-14, 0))
	t.nowAndThen("step", step, 5, t.gain(-26, -12))
}

func (t *take) radio() { t.under("music", music, t.gain(-40, -18)) }

func (t *take) bumps() { t.nowAndThen("handling", thump, 4, t.gain(-20, 0)) }
