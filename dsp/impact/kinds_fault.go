package impact

// ofFaults returns the kinds in which the shutter is not well.
func ofFaults() []kind {
	return []kind{
		{name: "closes early", tune: func(p *plan) { p.ails(closesEarly(p.dice)) }},
		{name: "hangs open", tune: func(p *plan) { p.ails(hangsOpen(p.dice)) }},
		{name: "hesitates", tune: func(p *plan) {
			p.ails(hesitates(p.dice))
			p.shutter.escapement.drops = min(p.shutter.escapement.drops, 1/8.5)
			p.shutter.escapement.level, p.snr = p.in(-28, -18), p.in(32, 50)
		}},
		{name: "needs exercise", tune: func(p *plan) {
			p.wait = p.ratio(0.9, 1.5)
			p.tells(marks(modern(), one(p.dice, 1.0, 1/2.0, 1/4.0), 1/35.0), 3, 7)
			p.ails(needsExercise(p.dice), "needs exercise")
		}},
		{name: "erratic", tune: func(p *plan) {
			p.tells(marks(modern(), 1, 1/60.0*0.9), 3, 6)
			p.ails(erratic(p.dice), "erratic")
		}},
		{name: "lazy blades", tune: func(p *plan) {
			p.ails(lazyBlades(p.dice))
			p.shutter.opening.single, p.shutter.closing.single = false, false
		}},
		{name: "bounces open", tune: func(p *plan) { p.ails(bouncesOpen(p.dice)) }},
		{name: "slow escapement", tune: func(p *plan) {
			p.ails(slowEscapement(p.dice, p.shutter.escapement.drops), "slow escapement")
		}},
		{name: "uneven steps", tune: func(p *plan) { p.ails(unevenSteps(p.dice), "uneven steps") }},
		{name: "reflex, closes early", tune: func(p *plan) {
			reflexes(p, 2, 4)
			p.ails(closesEarly(p.dice))
		}},
		{name: "focal-plane, slow escapement", tune: func(p *plan) {
			p.shutter = p.focalPlane()
			p.ails(slowEscapement(p.dice, p.shutter.escapement.drops), "slow escapement")
		}},
	}
}
