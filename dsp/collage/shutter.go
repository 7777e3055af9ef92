package collage

import "earshot/dsp/known"

// shutter is what it sounds like and how it moves.
type shutter struct {
	start, stop voice   // of the opening: blades start, and run against their stop
	shut, meet  voice   // of the closing: blades start, and meet
	rebound     voice   // after the closing
	low         float64 // gain of a start to its stop
	open        float64 // gain of the opening to the closing
	sharp       float64 // s over which a start rises
	travel      float64 // s from start to stop of the opening; 0: one sound
	back        float64 // the same of the closing
	bounce      float64 // s from the closing to its bounce
	bounces     float64 // gain of the bounce
	escapement  escapement
}

// leaf draws a leaf shutter; a big one has blades that travel longer.
func (t *take) leaf(big bool) shutter {
	s := shutter{
		start: t.voice(click, t.whole(1, 2), 0.012), stop: t.voice(click, t.whole(1, 3), t.ratio(0.015, 0.045)),
		shut: t.voice(click, 1, 0.010), meet: t.voice(click, t.whole(1, 3), t.ratio(0.015, 0.05)),
		rebound: t.voice(click, 1, 0.015),
		low:     t.gain(-20, -5), open: t.gain(-10, 3), sharp: t.ratio(0.00005, 0.0015),
		travel: t.between(0.002, 0.004), bounce: t.between(0.003, 0.006), bounces: t.gain(-20, -7),
		escapement: t.escapement(),
	}
	if big {
		s.travel = t.between(0.004, 0.008)
	}
	if t.chance(0.35) {
		s.back = s.travel * t.between(0.7, 1.1)
	}
	if t.chance(0.3) { // the same parts meet
		s.stop, s.shut = s.meet, s.start
	}
	return s
}

// curtains draws a focal-plane shutter: both curtains sound alike.
func (t *take) curtains() shutter {
	s := t.leaf(false)
	s.stop, s.shut = s.meet, s.start
	s.travel = t.between(0.010, 0.020)
	s.back = s.travel * t.about(1, 0.03)
	s.low, s.open = t.gain(-24, -10), t.gain(-4, 2)
	s.bounces = t.gain(-24, -12)
	return s
}

// opening plays one at s.
func (t *take) opening(m shutter, s, lazy float64) known.Stroke {
	return t.stroke(m.start, m.stop, s, m.travel*lazy, m.low*m.open, m.open, m.sharp*lazy)
}

// closing plays one at s, with its bounce.
func (t *take) closing(m shutter, s, lazy float64) known.Stroke {
	stroke := t.stroke(m.shut, m.meet, s, m.back*lazy, m.low, 1, m.sharp)
	t.play(t.shot(m.rebound), stroke.Stop+t.about(m.bounce, 0.05), t.about(m.bounces, 0.2))
	return stroke
}

// stroke plays a start and, travel s later, a stop, with jitter. Where travel is 0 only
// the stop is heard.
func (t *take) stroke(start, stop voice, s, travel, low, high, sharp float64) known.Stroke {
	if travel == 0 {
		at := t.play(t.shot(stop), s, high)
		return known.Stroke{Start: at, Stop: at}
	}
	first := t.play(soften(t.shot(start), t.rate, sharp), s, low)
	return known.Stroke{Start: first, Stop: t.play(t.shot(stop), first+t.about(travel, 0.015), high)}
}
