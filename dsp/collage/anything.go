package collage

import "earshot/dsp/known"

// anything are the kinds in which all that the others show may come together.
func anything() []kind {
	drawn := func(name string, shutter known.Kind) kind {
		return kind{name: name, scene: plain(shutter), drawn: func(d draw) scene { return mixed(d, shutter) }}
	}
	return []kind{drawn("leaf, anything", known.Leaf), drawn("reflex, anything", known.Reflex), drawn("focal-plane, anything", known.FocalPlane)}
}

// mixed draws a scene in which each thing happens by its own chance.
func mixed(d draw, shutter known.Kind) scene {
	s := plain(shutter)
	s.older, s.big, s.silent, s.rangefinder = d.chance(0.35), d.chance(0.2), d.chance(0.15), d.chance(0.4)
	s.first, s.least, s.most = d.whole(0, 4), d.whole(1, 3), d.whole(3, 8)
	s.off, s.quiet, s.loud = d.ratio(0.2, 1.5), 15, 50
	s.winding = winding(d.IntN(int(lever) + 1))
	if d.chance(0.4) {
		s.fault = pick(d, faults())
	}
	if d.chance(0.3) {
		s.between = pick(d, []func(*take, body, float64) float64{spokenBetween, bulb, secondCamera})
	}
	for _, f := range []func(*take){(*take).talkOver, (*take).wallClock, (*take).typistNearby, (*take).peopleAbout, (*take).radio, (*take).bumps} {
		if d.chance(0.12) {
			s.over = append(s.over, f)
		}
	}
	s.phone = anyPhone(d)
	return s
}

// faults are all there are, hesitation only where slow speeds are sure to be.
func faults() []func(*take, []shot) ([]string, bool) {
	return []func(*take, []shot) ([]string, bool){closesEarly, hangsOpen, needsExercise, erratic, lazyBlades, bouncesOpen, slowEscapement, unevenSteps}
}

func anyPhone(d draw) phone {
	p := phone{live: d.chance(0.08)}
	if d.chance(0.2) {
		p.agc = d.between(6, 26)
	}
	if d.chance(0.15) {
		p.suppress = d.between(6, 20)
	}
	if d.chance(0.12) {
		p.gate = gate(d.whole(1, 2))
	}
	if d.chance(0.1) {
		p.lost = d.whole(1, 12)
	}
	if d.chance(0.12) {
		p.clips = d.between(1, 12)
	}
	p.channels = channels(max(0, d.whole(-4, 3)))
	if d.chance(0.3) {
		p.rate = 48000
		p.coding = pick(d, []known.Coding{
			{Encoder: "aac", Suffix: ".m4a", Kbits: d.whole(24, 64)}, {Encoder: "libopus", Suffix: ".opus", Kbits: d.whole(12, 48)},
			{Encoder: "libmp3lame", Suffix: ".mp3", Kbits: pick(d, []int{48, 64, 96})}, {Encoder: "libvorbis", Suffix: ".ogg", Kbits: d.whole(48, 96)},
		})
	}
	return p
}
