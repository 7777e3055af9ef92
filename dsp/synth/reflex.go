package synth

// reflexBody is what moves behind a leaf shutter that one views through.
type reflexBody struct {
	mirror, flaps voice
	lead          float64 // s from the first sound to the opening of the exposure
	mirrorAfter   float64 // s from the first sound to the mirror
	flapsAfter    float64 // s from the first sound to the flaps
	mirrorLevel   float64 // dB against the click
	flapsLevel    float64
	reopenAt      float64 // share of the winding after which the blades reopen
}

// drawThump draws a body whose low modes are those of a box and a mirror.
func drawThump(d dice) body {
	return drawModes(d, d.count(7, 12), [2]float64{d.scale(70, 180), d.scale(2500, 6000)}, [2]float64{3, 12})
}

func drawReflexBody(d dice) *reflexBody {
	box := drawThump(d)
	thump := func() voice {
		return box.voice(d, contact{time: d.scale(0.15e-3, 1e-3), rattle: d.between(0.1, 0.6), ring: 1, parts: d.count(2, 4)})
	}
	lead := d.between(0.06, 0.1)
	return &reflexBody{
		mirror:      thump(),
		flaps:       thump(),
		lead:        lead,
		mirrorAfter: lead * d.between(0.2, 0.5),
		flapsAfter:  lead * d.between(0.5, 0.85),
		mirrorLevel: d.between(-4, 8),
		flapsLevel:  d.between(-8, 4),
		reopenAt:    d.between(0.5, 0.95),
	}
}

// release plays what comes before the exposure and returns when its opening starts.
func (b *reflexBody) release(c *composer, m *mechanism, at float64) float64 {
	c.movement("viewing blades close", &m.closing, m.closing.once(c.d, at, 0))
	mirror, flaps := at+c.d.near(b.mirrorAfter, 0.02), at+c.d.near(b.flapsAfter, 0.02)
	c.strike("mirror", b.mirror, mirror, b.mirrorLevel)
	c.strike("flaps", b.flaps, flaps, b.flapsLevel)
	return at + c.d.near(b.lead, 0.006)
}

// letGo plays the flaps falling when the button is let go after the closing.
func (b *reflexBody) letGo(c *composer, closed float64) float64 {
	at := closed + c.d.scale(0.1, 0.8)
	c.strike("flaps", b.flaps, at, b.flapsLevel+c.d.normal())
	return at
}

// reopen plays the viewing blades opening again during a winding.
func (b *reflexBody) reopen(c *composer, m *mechanism, w wind) {
	r := m.opening.once(c.d, w.at+b.reopenAt*w.length, 0)
	c.movement("blades reopen", &m.opening, r)
}

// mirrorBox is the mirror before a focal-plane shutter.
type mirrorBox struct {
	mirror      voice
	lead        float64 // s from the mirror's rise to the first curtain
	level       float64 // dB against the click
	returnAfter float64 // s from the second curtain's stop to the mirror's return
	returnLevel float64
}

func drawMirrorBox(d dice) *mirrorBox {
	box := drawThump(d)
	return &mirrorBox{
		mirror:      box.voice(d, contact{time: d.scale(0.1e-3, 0.6e-3), rattle: d.between(0.2, 0.8), ring: 1, parts: d.count(2, 4)}),
		lead:        d.between(0.025, 0.06),
		level:       d.between(-6, 6),
		returnAfter: d.between(-0.002, 0.04),
		returnLevel: d.between(-6, 6),
	}
}

// release plays the mirror going up and returns when the first curtain starts.
func (b *mirrorBox) release(c *composer, at float64) float64 {
	c.strike("mirror", b.mirror, at, b.level)
	return at + c.d.near(b.lead, 0.02)
}

// letGo plays the mirror's return after the second curtain's stop.
func (b *mirrorBox) letGo(c *composer, stopped float64) float64 {
	at := stopped + b.returnAfter + 0.5e-3*c.d.normal()
	c.strike("mirror", b.mirror, at, b.returnLevel)
	return at + 0.05
}
