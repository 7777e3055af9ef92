package shutter

import "math"

// Line is how the speeds of a dial lie about a common straight line over the stops
// of the dial, after what the escapement alone adds at the speeds that it holds back.
type Line struct {
	Known      bool    // there are speeds enough for one
	Escapement float64 // stops that the speeds with buzz lie above those without, alike; 0 where the two do not surely differ
	Tilt       float64 // stops a stop of the dial; + is slower at slower speeds
}

// Residual is how far a speed lies off the line of the others.
type Residual struct {
	Known bool
	Stops float64 // + is slow
	Time  float64 // s: of the speed, over what the line of the others has there
	U95   float64 // stops: of that
}

// fewestOthers is how many other speeds make a line, and fewestTilted how many one
// whose tilt can be told.
const (
	fewestOthers = 3
	fewestTilted = 4
)

// point is a speed on the dial, of its firings that nothing has explained yet.
type point struct {
	t       *trial
	held    bool    // held back by the escapement, as far as that can be told
	at      float64 // its place on the dial: log2 of the nominal time
	x, u95  float64 // its mean deviation and how sure that is, stops
	firings []int   // indices into Check.Firings
}

// points are the speeds that a line can be laid through: told, with a mean that says
// something, and known how well.
func (j *judging) points() []point {
	var all []point
	for _, t := range j.trials {
		places := j.unexplained(t)
		if t.speed.Assumed || t.speed.Summary.MeanHidden || t.figures.U95 == 0 || len(places) == 0 {
			continue
		}
		all = append(all, point{t, t.buzz, math.Log2(t.speed.Mark.Nominal), mean(pick(t.x, places)), t.figures.U95, pick(t.counted, places)})
	}
	return holding(all)
}

// holding tells which speeds without a buzz the escapement holds back too: a pallet
// may still be in where a firing is too short, or a room too loud, for its buzz to be
// heard. They are those next to the ones with buzz that are off like these, rather than
// like the fastest; that is never held.
func holding(all []point) []point {
	var with []point
	for _, p := range all {
		if p.held {
			with = append(with, p)
		}
	}
	slow := median(deviations(with))
	for i := range max(0, len(all)-1) {
		p := &all[i]
		off := math.Abs(p.x - slow)
		if len(with) == 0 || !p.held && (off > unevenStops || off >= math.Abs(p.x-all[len(all)-1].x)) {
			break
		}
		p.held = true
	}
	return all
}

// fitDial lays one line through the speeds, from which a slow escapement and uneven
// steps follow, and gives every speed its residual.
func (j *judging) fitDial() {
	all := j.points()
	step := j.slowEscapement(all)
	level := make([]point, len(all))
	for i, p := range all {
		if level[i] = p; p.held {
			level[i].x -= step
		}
	}
	j.check.Line = Line{Known: len(level) >= fewestTilted, Escapement: step, Tilt: tiltOf(level)}
	for i, p := range level {
		others := append(append([]point{}, level[:i]...), level[i+1:]...)
		if len(others) < fewestOthers {
			continue
		}
		off := p.x - lineAt(others, p.at)
		p.t.speed.Residual = Residual{
			Known: true, Stops: off, U95: math.Hypot(p.u95, median(uncertainties(others))),
			Time: p.t.speed.Mark.Nominal * (math.Exp2(all[i].x) - math.Exp2(all[i].x-off)),
		}
	}
	j.unevenSteps(all)
}

// lineAt is what the line through the points has at a place: a straight one by the
// median of the slopes from each to each (Theil 1950; Sen 1968), which one in four of
// them may be wrong without moving it far; level where they are too few for a tilt.
func lineAt(points []point, at float64) float64 {
	tilt := tiltOf(points)
	heights := make([]float64, len(points))
	for i, p := range points {
		heights[i] = p.x + tilt*(at-p.at)
	}
	return median(heights)
}

// tiltOf is the slope of the line through the points.
func tiltOf(points []point) float64 {
	if len(points) < fewestTilted {
		return 0
	}
	var slopes []float64
	for i, p := range points {
		for _, q := range points[i+1:] {
			if p.at != q.at {
				slopes = append(slopes, (p.x-q.x)/(p.at-q.at))
			}
		}
	}
	return median(slopes)
}

func deviations(points []point) []float64 {
	x := make([]float64, len(points))
	for i, p := range points {
		x[i] = p.x
	}
	return x
}

func uncertainties(points []point) []float64 {
	u := make([]float64, len(points))
	for i, p := range points {
		u[i] = p.u95
	}
	return u
}
