package impact

// ofNothing returns the kinds in which nothing is fired.
func ofNothing() []kind {
	plays := func(name string, play func(*scene)) kind { return kind{name: "nothing: " + name, play: play} }
	return []kind{
		plays("pens", (*scene).pens),
		plays("light switches", (*scene).switches),
		plays("staplers", (*scene).stapler),
		plays("mouse clicks", (*scene).mouse),
		plays("keyboard", (*scene).keyboard),
		plays("typewriter", (*scene).typewriter),
		plays("zips", (*scene).zips),
		plays("keys", (*scene).jingle),
		plays("cutlery", (*scene).cutlery),
		plays("limping clock", (*scene).limping),
		plays("metronome", (*scene).metronome),
		plays("doors", (*scene).doors),
		plays("lever strokes", (*scene).leverStrokes),
		plays("ratchets", (*scene).ratchets),
		plays("claps", (*scene).claps),
		plays("dripping", (*scene).drips),
		plays("music", (*scene).music),
		plays("drums", (*scene).drums),
		plays("game", (*scene).game),
		plays("babble by stresses", func(s *scene) { s.crowd(0, s.count(1, 3)) }),
		plays("babble by syllables", func(s *scene) { s.crowd(1, s.count(1, 3)) }),
		plays("babble by short beats", func(s *scene) { s.crowd(2, s.count(1, 3)) }),
		plays("babble with tones and clicks", func(s *scene) { s.crowd(3, s.count(1, 3)) }),
		plays("still room", (*scene).still),
	}
}
