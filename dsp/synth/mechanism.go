package synth

// mechanism is a shutter's parts and how they sound.
type mechanism struct {
	*Shutter
	opening, closing movement
	gears            gears
	winder           winder
	lever            *lever      // nil unless Lever
	reflex           *reflexBody // nil unless Kind is Reflex
	slr              *mirrorBox  // nil unless Kind is FocalPlane
}

// build draws the parts of a shutter.
func (s *Shutter) build() *mechanism {
	d := newDice(s.seed, 6)
	shell := drawBody(d, s.Size)
	m := &mechanism{Shutter: s, gears: drawGears(d, shell), winder: drawWinder(d, shell)}
	switch s.Kind {
	case FocalPlane:
		m.opening, m.closing = drawCurtains(d, shell)
		m.slr = drawMirrorBox(d)
	case Reflex:
		m.opening, m.closing = drawBlades(d, shell, s)
		m.reflex = drawReflexBody(d)
	default:
		m.opening, m.closing = drawBlades(d, shell, s)
		if s.Lever {
			m.lever = drawLever(d, shell)
		}
	}
	return m
}

// lever is the release being pressed, before the blades move.
type lever struct {
	click  voice
	before float64 // s before the blades start
	level  float64 // dB against the click
}

func drawLever(d dice, shell body) *lever {
	press := contact{time: d.scale(60e-6, 300e-6), attack: d.scale(0.2e-3, 2e-3), rattle: 0.5, ring: 0.4, share: 0.5}
	return &lever{shell.voice(d, press), d.scale(0.012, 0.06), d.between(-40, -26)}
}
