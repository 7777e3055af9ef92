package synth

import (
	"fmt"
	"math"
	"slices"
	"sort"
)

// Take is what was done, and heard, at the table.
type Take struct {
	Shutter  *Shutter  // nil: nothing is fired
	Settings []Setting // the dial's settings in the order fired

	Pause       [2]float64 // s from the end of one action to the next, evenly between; 0: 0.5 to 1.5
	Clear       float64    // s at least from a sound between two firings to the second of them; 0: 0.3
	Length      float64    // s the clip lasts at least
	SelfTimer   bool       // every firing is made by a self-timer
	Clock       *Clock     // a clock on the wall; nil: none
	Distractors []Distractor
}

// compose lays the take out in time and returns how long it lasts, s.
func (t Take) compose(d dice) (*composer, float64) {
	c := &composer{d: d, now: d.between(0.8, 2)}
	var m *mechanism
	if t.Shutter != nil {
		m = t.Shutter.build()
	}
	length := t.Length
	if len(t.Settings) > 0 {
		t.sitting(c, m)
		length = max(length, c.now+d.between(0.8, 1.5))
	}
	for _, x := range t.Distractors {
		if x.Every > 0 {
			c.scatter(x, m, length)
		}
	}
	if t.Clock != nil {
		c.clock(*t.Clock, length)
	}
	c.sort()
	return c, length
}

// sitting fires the shutter through its settings.
func (t Take) sitting(c *composer, m *mechanism) {
	plans := m.plans(c.d, t.Settings)
	if len(plans) > 0 && c.d.chance(0.5) {
		c.wind(m, false)
	}
	for i, p := range plans {
		t.rest(c, m, i > 0)
		if t.SelfTimer {
			c.selfTimer()
		}
		c.fire(m, t.Settings[p.setting], p)
		if last := i == len(plans)-1; last && c.d.chance(0.5) {
			continue
		}
		c.now += t.pause(c.d)
		c.wind(m, p.waits > 0)
	}
	c.truth.Settings = slices.Clone(t.Settings)
}

func (t Take) pause(d dice) float64 {
	if t.Pause == [2]float64{} {
		return d.between(0.5, 1.5)
	}
	return d.between(t.Pause[0], t.Pause[1])
}

// rest lets time pass before a firing, with the sounds that fill it.
func (t Take) rest(c *composer, m *mechanism, distracted bool) {
	c.now += t.pause(c.d)
	for _, x := range t.Distractors {
		if x.Every > 0 || !distracted || !c.d.chance(x.share()) {
			continue
		}
		c.now = c.distract(x, m, c.now) + t.clear()*c.d.between(1, 1.5)
	}
}

func (t Take) clear() float64 {
	if t.Clear == 0 {
		return 0.3
	}
	return t.Clear
}

// check says what can't be played.
func (t Take) check() error {
	for _, s := range t.Settings {
		if !(s.Nominal > 0) || math.IsInf(s.Nominal, 1) || s.Count < 0 {
			return fmt.Errorf("setting %q: %g s fired %d times cannot be", s.Label, s.Nominal, s.Count)
		}
	}
	if len(t.Settings) > 0 && t.Shutter == nil {
		return fmt.Errorf("%d settings but no shutter to fire", len(t.Settings))
	}
	if t.Clock != nil && t.Clock.Every < minTick {
		return fmt.Errorf("a clock that ticks every %g s: at least %g s", t.Clock.Every, minTick)
	}
	for _, x := range t.Distractors {
		if err := x.check(t.Shutter); err != nil {
			return err
		}
	}
	return nil
}

// sort brings everything into the order of time.
func (c *composer) sort() {
	sort.SliceStable(c.events, func(i, j int) bool { return c.events[i].start < c.events[j].start })
	sort.SliceStable(c.truth.Sounds, func(i, j int) bool { return c.truth.Sounds[i].Start < c.truth.Sounds[j].Start })
}
