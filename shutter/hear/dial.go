package hear

import (
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat"

	"earshot/shutter"
)

// What successive firings do, as told by the logarithms of their spans, in stops.
const (
	shotToShot = 0.08 // from one firing to the next,
	unsteady   = 0.4  // and of a shutter that does not repeat,
	erring     = 0.15 // as so many are
	turned     = 0.3  // of the firings follow a turn of the dial,
	bystop     = 0.5  // of these so many by about a stop,
	aboutstop  = 0.2  // give or take this: the speeds of an old shutter are not a stop apart
	dialStops  = 9.0  // from the shortest span to the longest: all that a dial can do
)

// stepOdds is the density, a stop, of a step between the spans of two successive
// firings, given how likely it is that the dial was turned between them, and that the
// shutter did not repeat.
func stepOdds(step, turned, errs float64) float64 {
	again := (1-errs)*normal(step/shotToShot)/shotToShot + errs*normal(step/unsteady)/unsteady
	away := bystop*normal((math.Abs(step)-1)/aboutstop)/aboutstop/2 + (1-bystop)/dialStops
	return (1-turned)*again + turned*away
}

// nextOdds is the density, a stop, of the span of a firing after those before it. What
// follows one that erred is like the one before that.
func nextOdds(before []float64, x, turned, errs float64) float64 {
	n := len(before)
	odds := stepOdds(x-before[n-1], turned, errs)
	if n > 1 {
		odds = (1-erring)*odds + erring*stepOdds(x-before[n-2], turned, errs)
	}
	return odds
}

// firedOdds is the logarithm of the density of spans, in stops, given the first of them. It
// is the sum of two densities: that of a shutter that repeats but for a few firings, and
// that of one that doesn't repeat. Shutters that don't repeat are taken to be as rare among
// shutters as erring firings are among firings.
func firedOdds(x []float64, turned float64) float64 {
	steady, erratic := 0.0, math.Log(erring)
	for i := 1; i < len(x); i++ {
		steady += math.Log(nextOdds(x[:i], x[i], turned, erring))
		erratic += math.Log(nextOdds(x[:i], x[i], turned, 1))
	}
	return floats.LogSumExp([]float64{steady, erratic})
}

// dialOdds weighs the spans of a set, in time order, as a logarithm of odds: those
// of a shutter fired a few times at each of some settings, or again and again at
// one, against those of another thing that does the same each time, more or less,
// which are spread about one middle, be it all of them or all but a few. A clock is as
// even as a shutter that nobody turns, and the odds are near 0; a key pressed and let go
// is not; and only a dial goes in steps.
func dialOdds(set []pair) float64 {
	if len(set) < 3 { // one middle of two spans fits whatever they are
		return 0
	}
	x, middle, sd := spanStops(set)
	spread := math.Max(math.Sqrt(stat.MomentAbout(2, x, middle, nil)), shotToShot) // of all of them
	most, all := aboutOdds(x, middle, sd), aboutOdds(x, middle, spread)
	other := floats.LogSumExp([]float64{most, all}) - math.Ln2 // one is as likely as the other
	return math.Max(firedOdds(x, turned), firedOdds(x, 0)) - other
}

// aboutOdds is the logarithm of the density of spans, in stops, the first of them given,
// that are spread about one middle but for a few.
func aboutOdds(x []float64, middle, sd float64) (sum float64) {
	for _, x := range x[1:] {
		sum += math.Log((1-erring)*normal((x-middle)/sd)/sd + erring/dialStops)
	}
	return sum
}

// spanStops is the spans of a set in stops, their median and how they spread about
// it but for a few, at least as a shutter's do.
func spanStops(set []pair) (x []float64, middle, sd float64) {
	x = make([]float64, len(set))
	for i := range set {
		x[i] = math.Log2(set[i].span)
	}
	return x, shutter.Median(x), math.Max(shutter.RobustSD(x), shotToShot)
}

// tick is the longest that the parts of one tick, or of a thing falling, last, s
// (common practice, no source).
const tick = 0.1

// steady tells whether three pairs or more all last as long as each other, as far as
// a shutter's do, and longer than the parts of one sound.
func steady(set []pair) bool {
	_, middle, sd := spanStops(set)
	return len(set) > few && sd == shotToShot && middle > math.Log2(tick)
}
