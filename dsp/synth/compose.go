package synth

import "slices"

// ringing is how long, s, an impact may go on after the end of its event.
const ringing = 0.4

// event is something that sounds from one time to another, s; its grains are drawn
// when they are needed.
type event struct {
	start, end float64
	seed       uint64
	play       func(d dice) []grain
}

// composer lays out in time what is heard in a clip.
type composer struct {
	d      dice
	now    float64 // s
	events []event
	clicks []event // openings and closings of firings, by which the click level is measured
	truth  Truth
}

// add adds an event and names it in the truth, unless the name is empty.
func (c *composer) add(kind string, start, end float64, play func(d dice) []grain) {
	c.events = append(c.events, event{start, end + ringing, c.d.Uint64(), play})
	if kind != "" {
		c.truth.Sounds = append(c.truth.Sounds, Sound{kind, start, end})
	}
}

// strike adds one impact.
func (c *composer) strike(kind string, v voice, at, level float64) {
	c.add(kind, at, at, func(d dice) []grain { return v.strike(d, at, level) })
}

// movement adds a movement of the blades that is not part of an exposure.
func (c *composer) movement(kind string, m *movement, r run) {
	c.add(kind, r.at.Start, r.at.Stop, func(d dice) []grain { return m.sound(d, r) })
}

// exposure adds an opening or closing that belongs to a firing.
func (c *composer) exposure(m *movement, r run) {
	c.movement("", m, r)
	c.clicks = append(c.clicks, c.events[len(c.events)-1])
}

// fire adds one firing whose first sound comes at c.now, and moves c.now behind it.
func (c *composer) fire(m *mechanism, set Setting, p plan) {
	start := m.release(c, c.now)
	f := Firing{Setting: p.setting, Label: set.Label, Nominal: set.Nominal, Symptoms: p.symptoms}
	open := m.opening.once(c.d, start, p.weak(false))
	f.Open = open.at
	c.exposure(&m.opening, open)
	due := start + max(p.duration, m.least(open))
	c.between(m, &f, p, due)
	if p.waits > 0 {
		c.now = start + set.Nominal + p.waits
	} else {
		c.close(m, &f, p, due)
	}
	c.truth.Firings = append(c.truth.Firings, f)
}

// least is the shortest time from one start to the other, s: blades can't close
// before they have opened, while curtains may follow each other as a slit.
func (m *mechanism) least(open run) float64 {
	if m.Kind == FocalPlane {
		return 0.5e-3
	}
	return open.at.Stop - open.at.Start + 0.3e-3
}

// release adds what is heard before the exposure, and returns when that begins.
func (m *mechanism) release(c *composer, at float64) float64 {
	switch {
	case m.reflex != nil:
		return m.reflex.release(c, m, at)
	case m.slr != nil:
		return m.slr.release(c, at)
	case m.lever != nil:
		c.strike("release lever", m.lever.click, at, m.lever.level+c.d.normal())
		return at + c.d.near(m.lever.before, 0.1)
	}
	return at
}

// between adds what is heard between opening and closing.
func (c *composer) between(m *mechanism, f *Firing, p plan, due float64) {
	from := f.Open.Stop
	if !m.buzzes(f.Nominal) {
		if m.BeatRate > 0 && due > from {
			c.add("", from, due, func(d dice) []grain { return m.gears.whirr(d, from, due) })
		}
		return
	}
	b := buzz{from: from, to: due, level: m.BuzzLevel + c.d.normal(), stallFor: p.stall}
	slowness := (due - f.Open.Start - p.stall) / f.Nominal
	f.BeatRate = c.d.near(m.BeatRate, 0.005)
	if !slices.Contains(p.symptoms, ClosesEarly) {
		f.BeatRate /= slowness
	}
	f.BuzzLevel = b.level
	b.rate, b.loss = f.BeatRate, m.RunDown*min(1, due-from)
	b.stallAt = from + (due-from-p.stall)*c.d.between(0.3, 0.7)
	if b.runsToRest = p.waits > 0; b.runsToRest {
		b.to = from + (due-from)*c.d.between(0.2, 0.9)
	}
	c.add("", b.from, b.to, func(d dice) []grain { return m.gears.sound(d, b) })
}

// close adds the closing of a firing, a bounce back open, and what follows.
func (c *composer) close(m *mechanism, f *Firing, p plan, due float64) {
	r := m.closing.once(c.d, due, p.weak(true))
	f.Close, f.Closes = r.at, true
	c.exposure(&m.closing, r)
	c.now = r.at.Stop
	if p.reopens > 0 {
		open := m.opening.once(c.d, r.at.Stop+p.reopens, 5)
		c.movement("bounces open", &m.opening, open)
		again := m.closing.once(c.d, open.at.Stop+c.d.between(4e-3, 15e-3), 4)
		c.movement("closes again", &m.closing, again)
		c.now = again.at.Stop
	}
	switch {
	case m.reflex != nil:
		c.now = m.reflex.letGo(c, c.now)
	case m.slr != nil:
		c.now = m.slr.letGo(c, c.now)
	}
}

// weak is the weakness of the opening or the closing in dB.
func (p plan) weak(closing bool) float64 {
	if p.late == closing {
		return p.weakness
	}
	return 0
}

// wind adds a winding at c.now and moves c.now behind it. Blades that hang are
// freed by it, and are heard to close half of the time.
func (c *composer) wind(m *mechanism, freed bool) {
	w := m.windOnce(c.d, c.now)
	if m.Winding != NoWinding {
		c.add("winding", w.at, w.at+w.length, func(d dice) []grain { return m.winder.sound(d, w) })
	}
	if freed && c.d.chance(0.5) {
		c.movement("freed by hand", &m.closing, m.closing.once(c.d, c.now+c.d.between(0, 0.05), 3))
	}
	if m.reflex != nil {
		m.reflex.reopen(c, m, w)
	}
	c.now += w.length + 0.02
}
