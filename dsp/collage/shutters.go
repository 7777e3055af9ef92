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

// surrounded are the kinds that differ by what else is heard.
func surrounded() []kind {
	return []kind{
		with("leaf, speeds named aloud", known.Leaf, func(s *scene) { s.between = spokenBetween }),
		with("reflex, talk between", known.Reflex, func(s *scene) { s.between = spokenBetween }),
		with("leaf, talk over it", known.Leaf, func(s *scene) {
			s.over = append(s.over, func(t *take) {
				tongue := pick(t.draw, languages())
				for at := t.between(0, 4); at < t.seconds()-3; at += t.ratio(0.5, 6) {
					at = t.speech(tongue, at, t.between(1, 3), t.gain(-22, 0))
				}
			})
		}),
		with("leaf, ticking clock", known.Leaf, func(s *scene) {
			s.over = append(s.over, func(t *take) {
				t.clock(pick(t.draw, []float64{1, 1, 0.5, 0.4, 0.2}), t.between(-0.1, 0.1), t.gain(-34, -13))
			})
		}),
		with("leaf, typing nearby", known.Leaf, func(s *scene) {
			s.over = append(s.over, func(t *take) {
				t.typed(t.between(0, 8), t.seconds()-t.between(1, 10), t.between(20, 50), t.gain(-30, -14))
			})
		}),
		with("focal-plane, doors and steps", known.FocalPlane, func(s *scene) {
			s.over = append(s.over, func(t *take) {
				t.nowAndThen("door", door, 14, t.gain(-14, 0))
				t.nowAndThen("step", step, 5, t.gain(-26, -12))
			})
		}),
		with("leaf, music", known.Leaf, func(s *scene) {
			s.over = append(s.over, func(t *take) { t.under("music", music, t.gain(-40, -18)) })
		}),
		with("leaf, bumps of the hand", known.Leaf, func(s *scene) {
			s.over = append(s.over, func(t *take) { t.nowAndThen("handling", thump, 4, t.gain(-20, 0)) })
		}),
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

// ailing are the kinds with a fault.
func ailing() []kind {
	faulty := func(name string, shutter known.Kind, f func(*take, []shot) ([]string, bool)) kind {
		return with(name, shutter, func(s *scene) { s.fault, s.least = f, 3 })
	}
	return []kind{
		faulty("leaf closes early", known.Leaf, closesEarly),
		faulty("leaf hangs open", known.Leaf, hangsOpen),
		faulty("leaf hesitates", known.Leaf, hesitates),
		faulty("leaf needs exercise", known.Leaf, needsExercise),
		faulty("leaf is erratic", known.Leaf, erratic),
		faulty("leaf has lazy blades", known.Leaf, lazyBlades),
		faulty("leaf bounces open", known.Leaf, bouncesOpen),
		faulty("leaf has a slow escapement", known.Leaf, slowEscapement),
		faulty("leaf has uneven steps", known.Leaf, unevenSteps),
		faulty("reflex hangs open", known.Reflex, hangsOpen),
		faulty("focal-plane is erratic", known.FocalPlane, erratic),
		faulty("reflex needs exercise", known.Reflex, needsExercise),
	}
}

// phoned are the kinds that differ by what records.
func phoned() []kind {
	by := func(name string, p phone) kind {
		return with(name, known.Leaf, func(s *scene) { s.phone = p })
	}
	return []kind{
		by("phone with much AGC", phone{agc: 26}),
		by("phone suppresses noise", phone{suppress: 18}),
		by("phone with a voice gate", phone{gate: gateDown}),
		by("phone gates to zero", phone{gate: gateToZero}),
		by("phone loses buffers", phone{lost: 10}),
		by("phone clips", phone{clips: 10}),
		by("phone at 8 kHz", phone{rate: 8000}),
		by("phone at 96 kHz", phone{rate: 96000}),
		by("channels in antiphase", phone{channels: antiphase}),
		by("one channel dead", phone{channels: dead}),
		by("hum", phone{hum: 35}),
		by("recorder skips silence", phone{skips: 1.5, exact: true}),
		by("AAC at 24 kbit/s", phone{rate: 44100, coding: known.Coding{Encoder: "aac", Suffix: ".m4a", Kbits: 24}}),
		by("Opus at 12 kbit/s", phone{rate: 48000, coding: known.Coding{Encoder: "libopus", Suffix: ".opus", Kbits: 12}}),
		by("Opus at 32 kbit/s", phone{rate: 48000, coding: known.Coding{Encoder: "libopus", Suffix: ".opus", Kbits: 32}}),
		by("MP3 at 48 kbit/s", phone{rate: 44100, coding: known.Coding{Encoder: "libmp3lame", Suffix: ".mp3", Kbits: 48}}),
		by("Vorbis at 64 kbit/s", phone{rate: 44100, coding: known.Coding{Encoder: "libvorbis", Suffix: ".ogg", Kbits: 64}}),
		with("cut at both ends", known.Leaf, func(s *scene) { s.cuts = true }),
	}
}
