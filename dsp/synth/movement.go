package synth

import "math"

// movement is how the blades, or a curtain, sound when they move one way.
type movement struct {
	start, stop, bounce     voice
	startLevel, bounceLevel float64 // dB against the stop at level
	level                   float64 // of the stop, dB against the click
	stroke                  float64 // s from start to stop
	bounceAfter             float64 // s from stop to bounce; 0: it does not bounce
	slide                   voice   // the blades rubbing along the way
	slideLevel              float64
}

// drawBlades draws the opening and the closing of a leaf shutter. The same ring
// drives both, so their strokes are nearly equal.
func drawBlades(d dice, shell body, s *Shutter) (opening, closing movement) {
	stroke := d.between(2e-3, 4e-3)
	if s.Size > 0.6 {
		stroke = d.between(4e-3, 8e-3)
	}
	opening = drawMovement(d, shell, s.Soft)
	closing = drawMovement(d, shell, s.Soft)
	opening.stroke, closing.stroke = stroke, d.near(stroke, 0.02)
	closing.level = d.between(-3, 4)
	closing.bounceAfter = d.between(3e-3, 6e-3)
	if d.chance(0.5) {
		opening.bounceAfter = d.between(3e-3, 6e-3)
		opening.bounceLevel = d.between(-22, -12)
	}
	return opening, closing
}

func drawMovement(d dice, shell body, soft bool) movement {
	first := contact{time: d.scale(25e-6, 120e-6), rattle: d.between(0.3, 1), ring: d.between(0.3, 1), share: 0.7}
	m := movement{startLevel: d.between(-12, -4)}
	if soft {
		first.attack = d.between(0.6e-3, 2e-3)
		m.startLevel = d.between(-26, -14)
	}
	m.start = shell.voice(d, first)
	m.stop = shell.voice(d, contact{time: d.scale(15e-6, 70e-6), rattle: d.between(0.3, 1.2), ring: d.between(0.6, 1), parts: d.count(1, 4)})
	m.bounce = shell.voice(d, contact{time: d.scale(20e-6, 90e-6), rattle: d.between(0.2, 0.8), ring: d.between(0.4, 1), share: 0.8, parts: d.count(1, 2)})
	m.bounceLevel = d.between(-15, -5)
	m.slide = shell.voice(d, contact{time: 40e-6, attack: 0.3e-3, rattle: 2, ring: 0.2, share: 0.3, spread: 0.2})
	m.slideLevel = d.between(-45, -30)
	return m
}

// drawCurtains draws the two curtains of a focal-plane shutter: alike, each a soft
// start and a loud stop.
func drawCurtains(d dice, shell body) (first, second movement) {
	first = drawMovement(d, shell, true)
	first.stroke = d.between(10e-3, 20e-3)
	first.bounceAfter = d.between(3e-3, 8e-3)
	second = first
	second.stroke = d.near(first.stroke, 0.02)
	second.level = d.between(-2, 2)
	return first, second
}

// run is one movement as it happened once.
type run struct {
	at    Stroke
	level float64 // dB against the movement as drawn
}

// once draws a run of the movement beginning at start, s. Weakness in dB makes it
// weaker and, at 6 dB, twice as long.
func (m *movement) once(d dice, start, weakness float64) run {
	stroke := d.near(m.stroke, 0.01) * (1 + weakness/6)
	return run{Stroke{start, start + stroke}, 0.8*d.normal() - weakness}
}

// sound is the run heard.
func (m *movement) sound(d dice, r run) []grain {
	level := m.level + r.level
	grains := m.start.strike(d, r.at.Start, level+m.startLevel)
	grains = append(grains, m.rub(d, r, level)...)
	grains = append(grains, m.stop.strike(d, r.at.Stop, level)...)
	if m.bounceAfter > 0 {
		after := d.near(m.bounceAfter, 0.05)
		grains = append(grains, m.bounce.strike(d, r.at.Stop+after, level+m.bounceLevel+1.5*d.normal())...)
	}
	return grains
}

// rub is the blades sliding over each other: small impacts at random, the faster
// they move the stronger.
func (m *movement) rub(d dice, r run, level float64) []grain {
	var grains []grain
	length := r.at.Stop - r.at.Start
	for t := d.ExpFloat64() / 4000; t < length; t += d.ExpFloat64() / 4000 {
		fast := math.Max(t/length, 0.05)
		grains = append(grains, m.slide.strike(d, r.at.Start+t, level+m.slideLevel+decibels(fast))...)
	}
	return grains
}
