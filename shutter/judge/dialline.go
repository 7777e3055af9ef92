package judge

import (
	"fmt"
	"math"
	"slices"

	"earshot/shutter"
	"earshot/shutter/internal/pick"
)

// Line is how the speeds of a dial lie about a straight line over the stops of the dial. What
// the escapement adds at the speeds that it holds back is subtracted first.
type Line struct {
	Known      bool    // there are speeds enough for one
	Escapement float64 // stops that the speeds with buzz lie above those without, alike; 0 where they differ by no more than U95
	Tilt       float64 // stops a stop of the dial; + is slower at slower speeds
}

// Residual is how far a speed lies off the line of the others.
type Residual struct {
	Known bool
	Stops float64 // + is slow
	Time  float64 // s: of the speed, over what the line of the others has there
	U95   float64 // stops: of that
}

// fewestOthers is how many other speeds a line needs, and fewestTilted how many it needs for
// its slope to be known.
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

// points are the speeds that a line can be fitted to: those that were told and have a mean
// and a known U95.
func (j *judging) points() []point {
	var all []point
	for _, t := range j.trials {
		places := j.unexplained(t)
		if t.speed.Assumed || t.speed.Summary.MeanHidden || t.figures.U95 == 0 || len(places) == 0 {
			continue
		}
		all = append(all, point{t, t.buzz, math.Log2(t.speed.Mark.Nominal), shutter.Mean(pick.At(t.x, places)), t.figures.U95, pick.At(t.counted, places)})
	}
	return holding(all)
}

// holding tells which speeds without a buzz the escapement holds back too. Its pallet may be
// engaged although a firing is too short, or a room too loud, for the buzz to be heard. These
// speeds are next to those with buzz, and off like them rather than like the fastest speed.
// The fastest is never held back.
func holding(all []point) []point {
	var with []point
	for _, p := range all {
		if p.held {
			with = append(with, p)
		}
	}
	slow := shutter.Median(deviations(with))
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

// fitDial fits one line to the speeds and gives every speed its residual. A slow escapement
// and uneven steps follow from it.
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
			Known: true, Stops: off, U95: math.Hypot(p.u95, shutter.Median(uncertainties(others))),
			Time: p.t.speed.Mark.Nominal * (math.Exp2(all[i].x) - math.Exp2(all[i].x-off)),
		}
	}
	j.unevenSteps(all)
}

// lineAt is the value at a place of the straight line fitted to the points. Its slope is the
// median of the slopes of all pairs (Theil 1950; Sen 1968): one in four points may be wrong
// without moving it far. With too few points for a slope it is level.
func lineAt(points []point, at float64) float64 {
	tilt := tiltOf(points)
	heights := make([]float64, len(points))
	for i, p := range points {
		heights[i] = p.x + tilt*(at-p.at)
	}
	return shutter.Median(heights)
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
	return shutter.Median(slopes)
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

// unevenStops, in stops, is how far off the line of the others a speed must be to be an uneven
// step. Speeds no further apart than that count as off alike.
const unevenStops = 1.0 / 3

// kinds are the speeds that the escapement holds back and those that it does not, in the median, stops.
type kinds struct {
	with, without      []point
	slow, other, apart float64 // of those with buzz, of those without, and by how much they differ
	alike              []point // those with buzz near their median
}

func kindsOf(all []point) (k kinds) {
	for _, p := range all {
		if p.held {
			k.with = append(k.with, p)
		} else {
			k.without = append(k.without, p)
		}
	}
	k.slow, k.other = shutter.Median(deviations(k.with)), shutter.Median(deviations(k.without))
	k.apart = k.slow - k.other
	for _, p := range k.with {
		if math.Abs(p.x-k.slow) <= unevenStops {
			k.alike = append(k.alike, p)
		}
	}
	return k
}

// differ tells whether the speeds with buzz are off alike and differ from those without: by
// more than U95, and by more than speeds may lie off a line. A tilted line must not explain
// it better.
func (k kinds) differ() bool {
	if len(k.with) < 2 || len(k.without) == 0 || len(k.alike) < 2 || 2*len(k.alike) <= len(k.with) {
		return false
	}
	u95 := math.Hypot(shutter.Median(uncertainties(k.with)), shutter.Median(uncertainties(k.without)))
	return math.Abs(k.apart) > max(u95, unevenStops) && k.residual() < k.lineResidual()
}

// residual is how far the speeds lie off the medians of their kinds, the sum of the sizes in
// stops.
func (k kinds) residual() (sum float64) {
	for _, p := range k.with {
		sum += math.Abs(p.x - k.slow)
	}
	for _, p := range k.without {
		sum += math.Abs(p.x - k.other)
	}
	return sum
}

// lineResidual is how far they lie off one line through both, the sum of the sizes.
func (k kinds) lineResidual() (sum float64) {
	all := slices.Concat(k.with, k.without)
	for _, p := range all {
		sum += math.Abs(p.x - lineAt(all, p.at))
	}
	return sum
}

// slowEscapement finds that the speeds with buzz are slow alike, beyond the good limit, while
// those without are not. It returns by how much the two differ, in either direction, and 0
// where they do not. With only one speed without buzz, that one may be off instead.
func (j *judging) slowEscapement(all []point) (step float64) {
	k := kindsOf(all)
	slow := k.slow > j.policy.Good && math.Abs(k.other) <= j.policy.Good
	if !k.differ() || !slow && len(k.without) < 2 {
		return 0
	}
	if slow {
		var firings []int
		for _, p := range k.alike {
			firings = append(firings, p.firings...)
		}
		why := fmt.Sprintf("the speeds that the slow-speed escapement holds back are %.1f stop slower than the mark, alike, and those without it are not", k.slow)
		j.check.Symptoms = append(j.check.Symptoms, j.symptom(SlowEscapement, firings, why))
	}
	return k.apart
}

// unevenSteps finds speeds off the line of the others.
func (j *judging) unevenSteps(all []point) {
	for _, p := range all {
		r := p.t.speed.Residual
		explained := len(j.check.Firings[p.firings[0]].Symptoms) > 0
		if !r.Known || explained || math.Abs(r.Stops) <= max(unevenStops, r.U95) {
			continue
		}
		side := "slower"
		if r.Stops < 0 {
			side = "faster"
		}
		why := fmt.Sprintf("it is %.1f stop (%s) %s than the line of the other speeds", math.Abs(r.Stops), shutter.TimeText(math.Abs(r.Time)), side)
		j.add(p.t, UnevenSteps, p.firings, why)
	}
}
