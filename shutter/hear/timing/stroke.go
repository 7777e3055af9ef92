package timing

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"earshot/shutter/hear/recording"
)

// What strokes of blades are like (common practice, no source, but where it says so).
const (
	shortestTravel = 0.0015 // s from start to end stop
	longestTravel  = 0.009
	usualTravel    = 0.0042 // the mean of what has a logarithm that is evenly spread between these, and
	variesTravel   = 0.0021 // its standard deviation
	alikeTravel    = 0.12   // of it, by which opening and closing differ: one ring drives both
	sharpest       = 6      // dB that a start is over its stop at most,
	softest        = 26     // and under it; blades start up to 25 dB under their stop
	alikeStart     = 5      // dB by which that differs between opening and closing
	likelyTravel   = 0.8    // of shutters, in which travel is alike; in the others it may be anything
	likelyStart    = 0.75   // and in which starts are
	rarely         = 1e-4   // the least probability of a drop that is bounded on one side only
	bends          = 3      // dB, the standard deviation by which recorders and loose parts bend those bounds
)

// How often what is heard of a movement is what, a sound, ms and dB.
const (
	oneOpening  = 0.2                                     // openings that are one sound, start and stop in one
	oneClosing  = 0.4                                     // and closings: their blades meet softly, or strike at once
	bounces     = 0.5 / 3 / 16                            // half of the closings bounce, 3 to 6 ms after, 4 to 20 dB weaker
	growths     = 0.3 / 1.5 / 15                          // one sound in three grows once more within 1.5 ms
	others      = 1.0 / 10 / 25                           // echoes, rattle: one in 10 ms behind the stop
	slides      = 0.5 / 7.5 / 30                          // and half of that along the way
	forerunners = 0.01 / 9 / 30                           // a lever
	louder      = 0.005                                   // of these are louder than the stop
	spreads     = 1.0 / 9 / 30                            // what a codec spreads, or a ring that swells, and is no sound
	level       = softest + sharpest                      // dB
	travel      = (longestTravel - shortestTravel) * 1000 // ms
)

// unheard stands for a part that noise hides.
const unheard = -1

// stroke is one way to explain what is heard of a movement.
type stroke struct {
	start, stop int     // parts; the same of one sound
	likelihood  float64 // natural logarithm, but for travel and drop
	travel      float64 // s from start to stop, 0 where it is not heard
	drop        drop
}

// drop is by how many dB a start lies under its stop: from least to most; infinite where it
// is not heard.
type drop struct{ least, most float64 }

// strokes are all ways to explain a movement, of which one sound is so probable.
func strokes(m *recording.Movements, one float64) (all []stroke) {
	single, two := math.Log(one), math.Log(1-one)
	for i := range m.Parts {
		p := &m.Parts[i]
		l := explained(m.Parts, i, i)
		all = append(all,
			stroke{start: i, stop: i, likelihood: l + single},
			stroke{start: unheard, stop: i, likelihood: l + two},
			stroke{start: i, stop: unheard, likelihood: l + two})
		for j := i + 1; j < len(m.Parts); j++ {
			q := &m.Parts[j]
			if t := q.At - p.At; t >= shortestTravel && t <= longestTravel {
				d := q.Level - p.Level
				all = append(all, stroke{i, j, explained(m.Parts, i, j) + two, t, drop{d, d}})
			}
		}
	}
	return all
}

// bounded is the stroke, of movement m, where that of the other movement travels for so
// long, 0 where it is not heard: its drop is such that what is unheard was hidden.
func (s stroke) bounded(m *recording.Movements, travel float64) stroke {
	if travel == 0 {
		travel = usualTravel
	}
	switch {
	case s.start == unheard:
		p := &m.Parts[s.stop]
		s.drop = drop{p.Level - m.Hides(p.At-travel), math.Inf(1)}
	case s.stop == unheard:
		p := &m.Parts[s.start]
		s.drop = drop{math.Inf(-1), m.Hides(p.At+travel) - p.Level}
	}
	return s
}

// explained is the logarithm of the likelihood of all parts but for how start and stop lie
// to each other.
func explained(parts []recording.Part, start, stop int) (sum float64) {
	end := &parts[stop]
	for k := range parts {
		p := &parts[k]
		sound := 0.0
		switch after := p.At - end.At; {
		case k == start || k == stop:
			sum += p.Odds
			continue
		case k < start:
			sound = forerunners
		case k < stop:
			sound = slides
		case after < shortestTravel:
			sound = growths
		case after > 0.0025 && after < 0.0065:
			sound = bounces
		default:
			sound = others
		}
		if k > start && p.Level > end.Level+1 {
			sound *= louder
		}
		sum += math.Log(spreads + sound*math.Exp(p.Odds))
	}
	return sum
}

// usually is the probability of the drop, or the density of one that is heard, where
// all drops from one bound to the other are as likely.
func (d drop) usually() float64 {
	if d.least == d.most {
		out := math.Max(0, math.Max(-sharpest-d.least, d.least-softest))
		return math.Exp(-out*out/2/bends/bends) / level
	}
	inside := math.Max(0, math.Min(d.most, softest)-math.Max(d.least, -sharpest)) / level
	return math.Max(inside, rarely)
}

// beside is the same where the other movement's drop is about other.
func (d drop) beside(other float64) float64 {
	n := distuv.Normal{Mu: other, Sigma: alikeStart}
	if d.least == d.most {
		return n.Prob(d.least)
	}
	return math.Max(n.CDF(d.most)-n.CDF(d.least), rarely)
}

func (d drop) heard() bool { return d.least == d.most }

// alike is the natural logarithm of the likelihood of travel and drop of both movements.
func alike(open, close *stroke) float64 {
	p := 1.0
	switch {
	case open.travel > 0 && close.travel > 0:
		n := distuv.Normal{Mu: open.travel * 1000, Sigma: alikeTravel * open.travel * 1000}
		p = (likelyTravel*n.Prob(close.travel*1000) + (1-likelyTravel)/travel) / travel
	case open.travel > 0 || close.travel > 0:
		p = 1 / travel
	}
	return math.Log(p * drops(open, close))
}

// drops is the likelihood of both drops.
func drops(open, close *stroke) float64 {
	switch o, c := open.drop, close.drop; {
	case open.single() && close.single():
		return 1
	case open.single():
		return c.usually()
	case close.single():
		return o.usually()
	case o.heard():
		return o.usually() * ((1-likelyStart)*c.usually() + likelyStart*c.beside(o.least))
	case c.heard():
		return c.usually() * ((1-likelyStart)*o.usually() + likelyStart*o.beside(c.least))
	default:
		p, q := o.usually(), c.usually()
		return (1-likelyStart)*p*q + likelyStart*math.Min(p, q)
	}
}

func (s *stroke) single() bool { return s.start == s.stop }

// variances are those of the times of start and stop, s².
type variances struct{ start, stop float64 }

// at are the times of start and stop, s, given the travel of the other movement, 0 where it
// is not heard.
func (s *stroke) at(parts []recording.Part, travel float64) (start, stop float64, v variances) {
	unsure := alikeTravel * travel
	if travel == 0 {
		travel, unsure = usualTravel, variesTravel
	}
	switch {
	case s.start == unheard:
		return parts[s.stop].At - travel, parts[s.stop].At, variances{start: unsure * unsure}
	case s.stop == unheard:
		return parts[s.start].At, parts[s.start].At + travel, variances{stop: unsure * unsure}
	}
	return parts[s.start].At, parts[s.stop].At, v
}
