package collage

// nothing are the kinds in which no shutter is fired.
func nothing() []kind {
	var kinds []kind
	add := func(name string, noises func(t *take)) {
		kinds = append(kinds, kind{name: "nothing: " + name, noises: noises})
	}
	add("a pen clicked", func(t *take) { t.pairs("pen", click, t.ratio(0.08, 0.6)) })
	add("switches", func(t *take) { t.pairs("switch", click, t.ratio(0.5, 3)) })
	add("a stapler", func(t *take) { t.pairs("stapler", thump, t.ratio(0.1, 0.4)) })
	add("a limping clock", func(t *take) {
		t.clock(pick(t.draw, []float64{1, 0.5, 0.4}), t.ratio(0.05, 0.5), 1)
	})
	add("typing", func(t *take) { t.typed(1, t.seconds()-2, t.between(15, 60), 1) })
	add("a typewriter", func(t *take) { t.nowAndThen("typewriter", writer, 0.8, 0.7) })
	add("doors", func(t *take) { t.nowAndThen("door", door, 3, 0.8) })
	add("steps", (*take).walks)
	add("digging", func(t *take) { t.nowAndThen("digging", digs, 1, 0.8) })
	add("chips and cards", func(t *take) { t.nowAndThen("game", chip, 2, 0.8) })
	add("music", func(t *take) { t.under("music", music, 1) })
	add("guitar", func(t *take) { t.under("music", guitar, 1) })
	add("drums, looped", func(t *take) { t.under("music", loop, 1) })
	add("tabla", func(t *take) { t.under("music", tabla, 1) })
	add("bells and strings", func(t *take) { t.nowAndThen("music", bell, 1.5, 0.8) })
	for _, tongue := range []string{"en", "es", "fr", "it", "ru", "read"} {
		add("speech, "+tongue, func(t *take) { t.talks(tongue) })
	}
	add("claps and snaps", func(t *take) { t.nowAndThen("clap", snap, 1.2, 0.8) })
	add("applause", (*take).applause)
	add("strokes of a lever", func(t *take) { t.wound(stroke) })
	add("ratchets", func(t *take) { t.wound(ratchet) })
	add("a camera's one lump", (*take).lumps)
	add("a self-timer", func(t *take) {
		for at := 1.0; at < t.seconds()-12; {
			at = selfTimer(t, body{}, at) + t.ratio(0.5, 3)
		}
	})
	add("two clocks", func(t *take) {
		t.clock(t.between(0.9, 1.1), 0, 1)
		t.clock(t.between(0.3, 0.6), t.between(-0.2, 0.2), t.gain(-12, 0))
	})
	add("fire, water and machines", func(t *take) { t.under("noise", live, 1) })
	add("a shop", func(t *take) {
		t.nowAndThen("door", door, 10, 0.6)
		t.nowAndThen("step", step, 3, 0.2)
		t.typed(t.between(0, 10), t.seconds()-5, t.between(20, 50), 0.2)
		tongue := pick(t.draw, languages())
		for at := t.between(0, 6); at < t.seconds()-5; at += t.ratio(1, 8) {
			at = t.speech(tongue, at, t.between(1, 4), t.gain(-12, 0))
		}
	})
	add("noise alone", func(t *take) { t.nowAndThen("handling", thump, 20, 0.02) })
	return kinds
}

// pairs are two clicks that belong together, every pair at its own interval, as a hand
// makes them.
func (t *take) pairs(kind string, r role, apart float64) {
	down, up := t.voice(r, t.whole(1, 2), t.ratio(0.015, 0.05)), t.voice(r, t.whole(1, 2), t.ratio(0.015, 0.05))
	low := t.gain(-8, 4)
	for at := t.between(0.5, 3); at < t.seconds()-4; at += t.ratio(0.4, 4) {
		begin := t.play(t.shot(down), at, t.gain(-6, 0))
		at = t.play(t.shot(up), begin+apart*t.ratio(0.5, 2), low*t.gain(-4, 0)) + 0.04
		t.heard(kind, begin, at, 1)
	}
}

// walks crosses the room and back.
func (t *take) walks() {
	for at := t.between(0, 3); at < t.seconds()-3; at += t.ratio(0.5, 6) {
		begin, pace := at, t.between(0.4, 0.8)
		for range t.whole(2, 12) {
			t.recording(step, at, t.gain(-12, 0))
			at += t.about(pace, 0.06)
		}
		t.heard("step", begin, min(at, t.seconds()), 1)
	}
}

func (t *take) talks(tongue string) {
	for at := t.between(0, 2); at < t.seconds()-7; at += t.ratio(0.2, 3) {
		at = t.speech(tongue, at, t.between(1, 6), t.gain(-6, 0))
	}
}

// applause is many claps at once, each hand at its own pace.
func (t *take) applause() {
	for at := t.between(0, 3); at < t.seconds()-9; at += t.ratio(1, 6) {
		seconds := t.between(2, 6)
		for range t.whole(3, 25) {
			hands, pace, gain := cut(t.fetch(pick(t.draw, t.lib.sounds[snap])), t.rate, 0.15), t.between(0.18, 0.4), t.gain(-18, 0)
			for s := at + t.between(0, 0.6); s < at+seconds; s += t.about(pace, 0.08) {
				t.play(hands, s, gain*t.gain(-2, 0))
			}
		}
		t.heard("applause", at, at+seconds+0.2, 1)
		at += seconds
	}
}

// wound winds a camera that isn't fired.
func (t *take) wound(how winding) {
	w := t.winder(how)
	for at := t.between(0.5, 2); at < t.seconds()-4; at += t.ratio(0.5, 4) {
		at = t.wind(w, body{}, at)
	}
}

// lumps are the first 30 ms of a camera's sound, in which nothing is told apart.
func (t *take) lumps() {
	x := cut(t.fetch(t.lib.sounds[camera][0]), t.rate, 0.03)
	for at := t.between(0.5, 2); at < t.seconds()-3; at += t.ratio(0.8, 5) {
		begin := t.play(x, at, t.gain(-4, 0))
		t.heard("camera", begin, begin+0.03, 1)
	}
}
