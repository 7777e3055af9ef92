package impact

import (
	"slices"
	"sort"

	"earshot/dsp/known"
)

// sitting fires the shutter as an operator does, and leaves in the truth what happened.
func (s *scene) sitting(p *plan) {
	t := s.in(0.5, 2)
	nth := 0
	for _, set := range p.told {
		for mth := range set.Count {
			t = s.round(p, set, t, nth, mth)
			nth++
		}
		t = s.turnDial(t)
	}
	for range p.bulbs {
		t = s.bulb(p, t)
	}
	s.add(table, t+s.in(0.3, 1.2), []float64{0}, 1)
	for _, play := range p.beside {
		play(s)
	}
	if p.crop {
		s.cropped()
	}
	s.truth.Healthy = !p.ailing || len(p.symptoms) == 0 && !s.ailed()
	s.inOrder()
}

// ailed is true where a fault showed in a firing.
func (s *scene) ailed() bool {
	return slices.ContainsFunc(s.truth.Firings, func(f known.Firing) bool { return len(f.Symptoms) > 0 })
}

// round winds, fires once at a mark and waits; it returns when the next can start.
func (s *scene) round(p *plan, set known.Setting, at float64, nth, mth int) float64 {
	t := s.wind(table, p.winder, at)
	t = s.rewound(p.shutter, t) + p.wait*s.in(0.25, 0.4)
	if p.timer {
		t = s.selfTimer(p, t)
	}
	fired, over := s.fire(p.shutter, t, set.Nominal, p.shutter.fated(s.dice, set.Nominal, nth, mth))
	fired.Mark = set.Mark
	s.truth.Firings = append(s.truth.Firings, fired)
	t = over + p.wait*s.in(0.3, 0.6)
	if s.chance(p.second) {
		t = s.another(p, t)
	}
	if s.chance(p.bumps) {
		s.bump(t)
		t += s.in(0.2, 0.6)
	}
	if s.chance(0.2) {
		s.fumble(t, t+s.in(0.1, 0.6))
	}
	return t
}

// turnDial clicks from one mark to the next.
func (s *scene) turnDial(at float64) float64 {
	if s.chance(0.4) {
		return at
	}
	detent := s.body(matter{1500, 12000, 12, 0.0015, 0.6})
	level, t := s.in(-32, -12), at
	for range s.count(1, 2) {
		s.strike(table, detent, t, level, 0.0002)
		t += s.in(0.05, 0.3)
	}
	s.other("handling", at, t)
	return t + 0.3
}

// selfTimer runs for some seconds and releases the shutter.
func (s *scene) selfTimer(p *plan, at float64) float64 {
	wheel := s.body(matter{2000, 12000, 8, 0.001, 0.5})
	beats, level := p.ticks, s.in(-30, -14)
	t, end := at, at+s.in(4, 9)
	for tick := true; t < end; tick = !tick {
		s.strike(table, wheel, t, level+s.NormFloat64()+2*sign(tick), 0.0001)
		pace := 1.0
		if t > at+0.7*(end-at) {
			pace = 1.5
		}
		t += s.about(0.02) / (beats * pace)
	}
	s.other("self-timer", at, t)
	return t + s.in(0.005, 0.06)
}

// bulb fires at no mark, for as long as a hand holds.
func (s *scene) bulb(p *plan, at float64) float64 {
	t := s.rewound(p.shutter, s.wind(table, p.winder, at)) + 0.5
	f := fate{lasts: s.ratio(0.4, 6), slower: 1, opens: 1, closes: 1}
	held := *p.shutter
	held.escapement.brake, held.escapement.hiss = true, 0
	fired, over := s.fire(&held, t, 0, f)
	fired.Plain, fired.Nominal = false, 0
	s.truth.Firings = append(s.truth.Firings, fired)
	return over + p.wait*0.5
}

// another fires a second camera.
func (s *scene) another(p *plan, at float64) float64 {
	sh := p.other
	nominal := s.ratio(1.0/100, 0.4)
	fired, over := s.fire(sh, at, nominal, sh.fated(s.dice, nominal, 0, 0))
	fired.Plain, fired.Nominal = false, 0
	s.truth.Firings = append(s.truth.Firings, fired)
	return over + s.in(0.3, 0.8)
}

// inOrder sorts what happened by time.
func (s *scene) inOrder() {
	f, o := s.truth.Firings, s.truth.Others
	sort.SliceStable(f, func(i, j int) bool { return f[i].Open.Start < f[j].Open.Start })
	sort.SliceStable(o, func(i, j int) bool { return o[i].Start < o[j].Start })
}
