package collage

import "earshot/dsp/known"

// body is what is around the shutter.
type body struct {
	kind    known.Kind
	shutter shutter
	mirror  voice
	release voice   // of the button or cocking lever, before the opening; silent where releases is 0
	rises   float64 // s from the first sound to the opening (reflex) or the first curtain
	thump   float64 // gain of the mirror
	falls   float64 // s from the closing to flaps or mirror coming down; 0: none
	button  float64 // gain of the release
}

// body draws what s tells of.
func (t *take) body(s scene) body {
	b := body{kind: s.kind, mirror: t.voice(thump, t.whole(1, 2), t.ratio(0.02, 0.06)), release: t.voice(click, 1, 0.015)}
	switch s.kind {
	case known.Reflex:
		b.shutter = t.leaf(t.chance(0.5))
		b.rises, b.thump, b.falls = t.between(0.06, 0.1), t.gain(-14, 2), t.ratio(0.1, 0.9)
	case known.FocalPlane:
		b.shutter = t.curtains()
		b.rises, b.thump = t.between(0.03, 0.07), t.gain(-16, 1)
		b.falls = t.between(0.002, 0.012)
		if s.rangefinder {
			b.rises, b.thump, b.falls = 0, 0, 0
		}
	default:
		b.shutter = t.leaf(s.big || t.chance(0.15))
		if t.chance(0.4) {
			b.rises, b.button = t.ratio(0.02, 0.3), t.gain(-30, -12)
		}
	}
	if s.silent {
		b.shutter.escapement.rate = 0
	}
	return b
}

// fire does one shot, its first sound at s, and returns when the last of it is over.
func (t *take) fire(b body, p shot, s float64) float64 {
	p = p.within(b.shutter)
	f := known.Firing{Mark: p.mark, Nominal: p.nominal, Symptoms: p.symptoms}
	f.Open = t.opening(b.shutter, t.before(b, s), p.lazy)
	d := p.duration() * t.slow
	if p.stays {
		d = p.nominal * t.slow
	}
	like := f.Open.Start + d // starts are timed to starts
	if b.kind == known.FocalPlane {
		like = f.Open.Stop + d - b.shutter.back // and stops to stops
	}
	if p.mark != "" || p.held == 0 {
		f.Beats = t.buzz(b.shutter.escapement, f.Open.Stop+t.between(0.001, 0.006), like-t.between(0.001, 0.004), p.duration()-p.pause, p.pause)
	}
	end := like
	if !p.stays {
		f.Close, f.Closes = t.closing(b.shutter, like, max(1, p.lazy*0.7)), true
		end = t.after(b, p, f.Close.Stop)
	}
	t.firings = append(t.firings, f)
	return end
}

// before plays what comes ahead of the opening and returns when that is due.
func (t *take) before(b body, s float64) float64 {
	due := s + t.about(b.rises, 0.02)
	switch {
	case b.kind == known.Reflex:
		shut := t.closing(b.shutter, s, 1)
		up := t.play(t.shot(b.mirror), shut.Stop+t.between(0.004, 0.030), b.thump)
		t.part("release", shut.Start, up+0.02, 1)
		due = shut.Start + t.about(b.rises, 0.02)
	case b.thump > 0:
		up := t.play(t.shot(b.mirror), s, b.thump)
		t.part("mirror", up, up+0.03, b.thump)
	case b.button > 0:
		at := t.play(t.shot(b.release), s, b.button)
		t.part("release", at, at+0.01, b.button)
	}
	return due
}

// after plays what follows the closing, and returns when it is over.
func (t *take) after(b body, p shot, closed float64) float64 {
	end := closed + 0.02
	if p.opens {
		gap := t.ratio(0.008, 0.025)
		t.play(t.shot(b.shutter.stop), closed+gap, b.shutter.open*t.gain(-9, -2))
		at := t.play(t.shot(b.shutter.meet), closed+gap*t.between(1.6, 2.4), t.gain(-8, -2))
		t.part("bounce", closed+gap, at+0.01, 0.5)
		end = at + 0.02
	}
	if b.falls > 0 {
		at := t.play(t.shot(b.mirror), end-0.02+t.about(b.falls, 0.2), b.thump*t.gain(-8, 0))
		t.part(b.falling(), at, at+0.04, b.thump)
		end = at + 0.05
	}
	return end
}

// falling names what comes down after the closing.
func (b body) falling() string {
	if b.kind == known.Reflex {
		return "flaps"
	}
	return "mirror"
}
