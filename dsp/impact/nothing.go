package impact

import "math"

// nothing plays what is no shutter.
func (s *scene) nothing(play func(*scene)) {
	s.truth.Healthy = false
	play(s)
	s.add(wall, s.end, []float64{0}, 1)
	n := s.sample(s.end)
	for i, t := range s.tracks {
		s.tracks[i] = t[:min(n, len(t))]
	}
	for i, o := range s.truth.Others {
		s.truth.Others[i].End = min(o.End, float64(n)/s.rate)
	}
	s.inOrder()
}

// thing is a body with the way it is hit.
type thing struct {
	body    body
	contact float64
}

// thing draws something that sounds between two frequencies, rings so many s, and stands
// on a table or not.
func (d dice) thing(low, high, rings, contact float64) thing {
	plank := d.body(matter{80, 900, 8, d.in(0.015, 0.04), 0.6}).scaled(d.in(-24, -8))
	return thing{joined(d.body(matter{low, high, 16, rings, 0.6}), plank), contact}
}

// hit sounds a thing, and notes when, for the level of the clip.
func (s *scene) hit(on place, t thing, at, level float64) {
	if at < 0 || at > s.end-0.1 {
		return
	}
	s.marked = append(s.marked, s.strike(on, t.body, at, level+0.8*s.NormFloat64(), t.contact))
}

// slide rubs over a thing.
func (s *scene) slide(on place, t thing, from, lasts, level float64, shape func(float64) float64) {
	if from+lasts < s.end {
		s.rub(on, t.body, from, from+lasts, level, shape)
	}
}

// every calls do again and again, with waits between two limits, s, and notes the sounds
// under a name. What do returns is how long it took.
func (s *scene) every(low, high float64, name string, do func(at float64) float64) {
	for t := s.in(0.2, high); t < s.end-0.5; {
		lasts := do(t)
		s.other(name, t, min(t+lasts+0.03, s.end))
		t += lasts + s.ratio(low, high)
	}
}

// pair hits one thing and then another, or the same, so many s later.
func (s *scene) pair(first, second thing, at, apart, down float64) float64 {
	s.hit(table, first, at, s.in(-3, 0))
	s.hit(table, second, at+apart, down+s.in(-2, 2))
	return apart
}

// beats calls do at even times, give or take a share of the period.
func (s *scene) beats(period, share float64, do func(i int, at float64)) {
	for i, t := 0, s.in(0.1, period); t < s.end-0.1; i++ {
		do(i, t+period*share*math.Max(-2, math.Min(s.NormFloat64(), 2)))
		t += period
	}
}
