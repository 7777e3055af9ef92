package impact

import "earshot/dsp/known"

// ofPhones returns the kinds that differ in what records them and keeps them.
func ofPhones() []kind {
	return []kind{
		{name: "automatic gain", tune: does(dice.automatic)},
		{name: "noise suppression", tune: does(dice.suppresses)},
		{name: "voice gate", tune: does(func(d dice) step { return d.gate(d.in(12, 45), d.ratio(0.0005, 0.006)) })},
		{name: "gate to digital zero", tune: does(func(d dice) step { return d.gate(200, d.ratio(0.0002, 0.002)) })},
		{name: "lost buffers", tune: does(dice.loses)},
		{name: "clipping", tune: does(dice.clips)},
		{name: "recorder that skips silence", tune: func(p *plan) {
			p.wait = p.ratio(2, 4)
			p.tells(marks(modern(), 1, 1/60.0*0.9), 1, 3)
			p.phone = append(p.phone, p.skips())
		}},
		{name: "8 or 16 kHz", tune: func(p *plan) { p.at(48000, one(p.dice, 3, 6)) }},
		{name: "96 kHz", tune: func(p *plan) {
			p.at(96000, 1)
			p.told = p.tell(marks(modern(), 1, 1/60.0*0.9), 1, 3, p.wait, 30)
		}},
		{name: "two channels in antiphase", tune: func(p *plan) { p.split = p.antiphase() }},
		{name: "one channel of two dead", tune: func(p *plan) { p.split = p.dead() }},
		{name: "clock error", tune: func(p *plan) {
			p.clock = 1 + p.in(-1e-4, 1e-4)
			p.beside = append(p.beside, p.wallClock())
		}},
		{name: "AAC", tune: coded("aac", ".m4a", 0, 24, 32, 48, 64, 96, 128)},
		{name: "Opus", tune: coded("libopus", ".ogg", 48000, 12, 16, 24, 32, 64)},
		{name: "MP3", tune: coded("libmp3lame", ".mp3", 0, 32, 48, 64, 128)},
		{name: "Vorbis", tune: coded("libvorbis", ".ogg", 0, 48, 64, 96)},
		{name: "much at once", tune: muchAtOnce},
	}
}

// muchAtOnce draws several difficulties together.
func muchAtOnce(p *plan) {
	p.wait = p.ratio(1.6, 3)
	p.tells(marks(modern(), 1, 1/60.0*0.9), 1, 4)
	p.rt, p.distance, p.snr = [2]float64{0.2, 0.6}, p.in(0.2, 0.5), p.in(20, 35)
	p.beside = append(p.beside, p.wallClock(), p.talkBetween(p.in(-6, 4)))
	p.bumps = p.in(0.1, 0.4)
	if p.chance(0.5) {
		p.phone = append(p.phone, p.suppresses())
	}
	if p.chance(0.5) {
		p.phone = append(p.phone, p.automatic())
	}
	p.split = one(p.dice, p.stereo(), p.antiphase())
	coded("aac", ".m4a", 0, 32, 64, 128)(p)
}

// does returns a change of the phone: it does one thing more.
func does(draw func(dice) step) func(*plan) {
	return func(p *plan) { p.phone = append(p.phone, draw(p.dice)) }
}

// coded returns a change of how the file is kept.
func coded(encoder, suffix string, rate int, kbits ...int) func(*plan) {
	return func(p *plan) {
		p.coding = known.Coding{Encoder: encoder, Suffix: suffix, Rate: rate, Kbits: one(p.dice, kbits...)}
	}
}
