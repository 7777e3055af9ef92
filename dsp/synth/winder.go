package synth

// winder is how making the shutter ready sounds.
type winder struct {
	click, lift, latch voice
	scrape             voice
	clicks             int     // of the ratchet
	spacing            float64 // s between them
	latchLevel         float64 // dB against the clicks
	length             float64 // s of a single stroke
}

func drawWinder(d dice, shell body) winder {
	part := func(share float64) voice {
		return shell.voice(d, contact{time: d.scale(20e-6, 90e-6), rattle: d.between(0.2, 1), ring: d.between(0.3, 1), share: share, parts: d.count(1, 2)})
	}
	return winder{
		click:      part(0.6),
		lift:       part(0.4),
		latch:      part(0.8),
		scrape:     shell.voice(d, contact{time: 50e-6, attack: 0.4e-3, rattle: 1.5, ring: 0.3, share: 0.4, spread: 0.2}),
		clicks:     d.count(8, 20),
		spacing:    d.scale(0.018, 0.05),
		latchLevel: d.between(0, 6),
		length:     d.between(0.15, 0.45),
	}
}

// wind is one winding as it happened.
type wind struct {
	at, length float64 // s
	latchAt    float64 // s
	clicks     []float64
	level      float64 // dB against the click
}

// windOnce draws a winding that begins at the time at, s. A hand starts and ends it
// slower than it goes in between.
func (m *mechanism) windOnce(d dice, at float64) wind {
	w := wind{at: at, latchAt: at, level: m.Loud + d.normal()}
	pace := d.near(1, 0.08)
	switch m.Winding {
	case RatchetWinding:
		t := at
		for n := range m.winder.clicks {
			w.clicks = append(w.clicks, t)
			u := 2*float64(n)/float64(m.winder.clicks) - 1
			t += d.near(m.winder.spacing*pace*(0.9+0.25*u*u), 0.04)
		}
		w.latchAt = t + d.between(0, 0.02)
	case StrokeWinding:
		w.latchAt = at + m.winder.length*pace
	}
	w.length = w.latchAt - at + 0.01
	return w
}

// sound is the winding heard.
func (k *winder) sound(d dice, w wind) []grain {
	var grains []grain
	for _, t := range w.clicks {
		grains = append(grains, k.lift.strike(d, t-d.between(2e-3, 5e-3)+5e-3, w.level-16)...)
		grains = append(grains, k.click.strike(d, t+5e-3, w.level+1.5*d.normal())...)
	}
	if len(w.clicks) == 0 {
		grains = append(grains, rustle(d, k.scrape, rustling{w.at, w.latchAt, 900, w.level - 26})...)
	}
	return append(grains, k.latch.strike(d, w.latchAt+5e-3, w.level+k.latchLevel+d.normal())...)
}

// rustling is parts rubbing from one time to another, s.
type rustling struct {
	from, to float64
	rate     float64 // impacts/s
	level    float64 // dB against the click
}

// rustle is a rubbing heard: small impacts at random that swell and fade.
func rustle(d dice, v voice, r rustling) []grain {
	var grains []grain
	for t := r.from + d.ExpFloat64()/r.rate; t < r.to; t += d.ExpFloat64() / r.rate {
		u := (t - r.from) / (r.to - r.from)
		grains = append(grains, v.strike(d, t, r.level+decibels(4*u*(1-u)+0.02)+4*d.normal())...)
	}
	return grains
}
