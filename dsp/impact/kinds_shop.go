package impact

// ofShops returns the kinds that differ in the operator, the room and what else is heard.
func ofShops() []kind {
	return []kind{
		{name: "many firings a speed", tune: func(p *plan) {
			p.wait = p.ratio(0.8, 1.3)
			p.tells(marks(modern(), one(p.dice, 1.0, 1/2.0, 1/4.0), 1/60.0*0.9), 6, 10)
		}},
		{name: "one firing a speed", tune: func(p *plan) {
			p.wait = p.ratio(2, 4)
			p.tells(marks(one(p.dice, modern(), older()), 1, 1/60.0*0.9), 1, 1)
		}},
		{name: "loud winding", tune: func(p *plan) { p.winder.way, p.winder.level = "ratchet", p.in(4, 15) }},
		{name: "self-timer", tune: func(p *plan) {
			p.timer = true
			p.tellFew(7)
		}},
		{name: "wall clock", tune: func(p *plan) { p.beside = append(p.beside, p.wallClock()) }},
		{name: "speech over", tune: func(p *plan) { p.beside = append(p.beside, p.talk(1, p.in(-12, 3))) }},
		{name: "speech between", tune: func(p *plan) {
			p.wait = p.ratio(2, 3.5)
			p.tells(marks(modern(), 1, 1/60.0*0.9), 1, 3)
			p.beside = append(p.beside, p.talkBetween(p.in(-6, 8)))
		}},
		{name: "second camera", tune: func(p *plan) {
			p.other, p.second = one(p.dice, p.leaf(), p.focalPlane()), p.in(0.2, 0.6)
			p.other.on = operator
			lift := p.in(-10, 5)
			p.other.opening.level += lift
			p.other.closing.level += lift
			p.other.mirror.level += lift
		}},
		{name: "handling", tune: func(p *plan) { p.bumps = p.in(0.4, 1) }},
		{name: "bulb", tune: func(p *plan) { p.bulbs = p.count(1, 3) }},
		{name: "cut at both ends", tune: func(p *plan) { p.crop = true }},
		{name: "large room, far phone", tune: func(p *plan) {
			p.rt, p.distance = [2]float64{0.4, 0.6}, p.in(0.35, 0.6)
		}},
		{name: "hum", tune: func(p *plan) { p.noise.hum = p.in(4, 24) }},
		{name: "noisy room", tune: func(p *plan) { p.snr = p.in(15, 24) }},
	}
}

// tellFew draws a sitting of so many firings at most.
func (p *plan) tellFew(firings int) {
	p.told = p.tell(marks(modern(), 1, 1/60.0*0.9), 1, 2, p.wait, 50)
	for n := 0; ; {
		n = 0
		for _, t := range p.told {
			n += t.Count
		}
		if n <= firings || len(p.told) == 1 {
			return
		}
		p.told = p.shortened(p.told, 1)
	}
}
