package synth

import "fmt"

// Noisemaker is something that is heard beside the shutter.
type Noisemaker string

// The noisemakers there are.
const (
	Speech   Noisemaker = "speech"
	Music    Noisemaker = "music"
	Knock    Noisemaker = "knock"
	Clap     Noisemaker = "clap"
	Typing   Noisemaker = "typing"
	Handling Noisemaker = "handling"
	Cranking Noisemaker = "winding" // the shutter's own, by itself
)

// Distractor is a noisemaker and when it is heard.
type Distractor struct {
	Kind  Noisemaker
	Level float64 // dB of its loudest 2 ms against the click; that of the shutter for Cranking
	Every float64 // s on average, all through the clip, firings or not; 0: between firings only
	Share float64 // share of the times between two firings in which it is heard; 0: all
}

func (x Distractor) share() float64 {
	if x.Share == 0 {
		return 1
	}
	return x.Share
}

func (x Distractor) check(s *Shutter) error {
	switch x.Kind {
	case Speech, Music, Knock, Clap, Typing, Handling:
	case Cranking:
		if s == nil || s.Winding == NoWinding {
			return fmt.Errorf("winding is heard, but there is no shutter that is wound")
		}
	default:
		return fmt.Errorf("no noisemaker is called %q", x.Kind)
	}
	if x.Every < 0 || x.Share < 0 || x.Share > 1 {
		return fmt.Errorf("%s every %g s in a share of %g: not below 0, and the share not above 1", x.Kind, x.Every, x.Share)
	}
	return nil
}

// passage is a stretch of sound from its own time 0, not yet at its level.
type passage struct {
	length float64 // s
	play   func(d dice) []grain
}

// draw draws one passage of a noisemaker that needs no shutter.
func (n Noisemaker) draw(d dice) passage {
	switch n {
	case Speech:
		return speech(d)
	case Music:
		return music(d)
	case Knock:
		return knocks(d)
	case Clap:
		return claps(d)
	case Typing:
		return typing(d)
	}
	return handling(d)
}

// distract adds one passage at a time, s, and returns its end.
func (c *composer) distract(x Distractor, m *mechanism, at float64) float64 {
	if x.Kind == Cranking {
		w := m.windOnce(c.d, at)
		c.add(string(x.Kind), at, at+w.length, func(d dice) []grain { return m.winder.sound(d, w) })
		return at + w.length
	}
	p := x.Kind.draw(c.d)
	c.add(string(x.Kind), at, at+p.length, func(d dice) []grain {
		return later(toLevel(p.play(d), x.Level), at)
	})
	return at + p.length
}

// scatter adds passages all through the clip, the last perhaps cut by its end. The
// time from one to the next varies by a half.
func (c *composer) scatter(x Distractor, m *mechanism, length float64) {
	for t := x.Every * c.d.between(0.2, 1); t < length; t += x.Every * c.d.between(0.5, 1.5) {
		t = max(t, c.distract(x, m, t)-x.Every/2)
	}
}

// later moves grains by a time, s.
func later(grains []grain, by float64) []grain {
	for i := range grains {
		grains[i].at += by
	}
	return grains
}
