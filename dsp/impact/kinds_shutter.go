package impact

// ofShutters returns the kinds that differ in the shutter and in how it is fired.
func ofShutters() []kind {
	return []kind{
		{name: "leaf"},
		{name: "leaf, soft openings", tune: func(p *plan) {
			p.shutter.opening.soften(p.dice)
			p.shutter.opening.single, p.shutter.closing.single = false, false
		}},
		{name: "leaf, sharp openings", tune: func(p *plan) { p.shutter.opening.sharpen(p.dice) }},
		{name: "leaf, big", tune: big},
		{name: "leaf, weak openings", tune: func(p *plan) {
			p.shutter.opening.level, p.shutter.closing.level = p.in(-15, -9), 0
			p.snr = p.in(30, 50)
		}},
		{name: "leaf, weak closings", tune: func(p *plan) {
			p.shutter.opening.level, p.shutter.closing.level = 0, p.in(-15, -9)
			p.snr = p.in(30, 50)
		}},
		{name: "leaf, air brake", tune: func(p *plan) {
			p.shutter.escapement.brake = true
			p.tells(marks(older(), 1, 1/50.0), 1, 5)
		}},
		{name: "leaf, older series", tune: func(p *plan) { p.tells(marks(older(), 1, 1/50.0), 1, 5) }},
		{name: "leaf, long times", tune: func(p *plan) {
			p.wait = p.ratio(0.8, 1.5)
			p.tells(marks(modern(), one(p.dice, 2.0, 4), 1/9.0), 1, 3)
		}},
		{name: "leaf, fast speeds", tune: func(p *plan) {
			p.tells(marks(modern(), one(p.dice, 1/4.0, 1/8.0, 1/16.0), 1/128.0), 2, 8)
		}},
		{name: "leaf, off its marks", tune: func(p *plan) {
			p.shutter.off = one(p.dice, p.in(-1.5, -0.4), p.in(0.5, 1.5))
		}},
		{name: "reflex", tune: func(p *plan) { reflexes(p, 1, 4) }},
		{name: "focal-plane", tune: func(p *plan) { p.shutter = p.focalPlane() }},
	}
}

// big makes the shutter a big one, which moves slowly and sounds low.
func big(p *plan) {
	p.parts(p.shutter, p.in(1.4, 2.2))
	travel := p.in(0.004, 0.008)
	p.shutter.opening.travel, p.shutter.closing.travel = travel, travel*p.in(0.8, 1.25)
	p.shutter.opening.single, p.shutter.closing.single = false, false
	p.tells(marks(modern(), 1, 1/35.0), 1, 5)
}

// reflexes puts a reflex body around the shutter.
func reflexes(p *plan, low, high int) {
	p.shutter = p.reflex()
	p.wait = p.ratio(1.4, 2.8)
	if p.winder.way == "none" {
		p.winder.way = "ratchet"
	}
	p.tells(marks(modern(), 1, 1/60.0*0.9), low, high)
}
