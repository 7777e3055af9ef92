package timing

import (
	"math"

	"earshot/shutter"
	"earshot/shutter/hear/recording"
)

// explanation is one way to explain what is heard of openings and closings, and how
// probable it is.
type explanation struct {
	open, close stroke
	posterior   float64
	start, stop between
}

// between is a time between like ends, s, as the parts are timed, and its variance.
type between struct{ time, variance float64 }

// explanations are all ways to explain both movements that are not quite improbable.
func explanations(opens, closes *recording.Movements) (all []explanation) {
	most := math.Inf(-1)
	ofClosing := strokes(closes, oneClosing)
	for _, open := range strokes(opens, oneOpening) {
		for _, close := range ofClosing {
			o, c := open.bounded(opens, close.travel), close.bounded(closes, open.travel)
			x := explanation{open: o, close: c, posterior: o.likelihood + c.likelihood + alike(&o, &c)}
			most = math.Max(most, x.posterior)
			all = append(all, x)
		}
	}
	const negligible = 14 // one in a million
	likely, sum := all[:0], 0.0
	for _, x := range all {
		if x.posterior > most-negligible {
			x.posterior = math.Exp(x.posterior - most)
			sum += x.posterior
			likely = append(likely, x)
		}
	}
	for i := range likely {
		likely[i].posterior /= sum
		likely[i].lay(opens.Parts, closes.Parts)
	}
	return likely
}

// lay fills in the times between.
func (x *explanation) lay(opens, closes []recording.Part) {
	openStart, openStop, v := x.open.at(opens, x.close.travel)
	closeStart, closeStop, w := x.close.at(closes, x.open.travel)
	x.start = between{closeStart - openStart, v.start + w.start}
	x.stop = between{closeStop - openStop, v.stop + w.stop}
}

// measured is a part of the opening and one of the closing between which time is taken,
// and the doubt that these are like ends, as a standard uncertainty in s.
type measured struct {
	open, close int
	doubt       float64
}

// likeliest is the pair of parts that most probably are the like ends of both movements.
// Its doubt is the root of the mean square of the differences from what all explanations
// say lies between the ends, by their posterior; infinite where no pair is heard.
func likeliest(all []explanation, opens, closes []recording.Part, ends func(*explanation) (open, close int, b between)) measured {
	probability := map[[2]int]float64{}
	m := measured{doubt: math.Inf(1)}
	most := 0.0
	for i := range all {
		o, c, _ := ends(&all[i])
		if o == unheard || c == unheard {
			continue
		}
		pair := [2]int{o, c}
		if probability[pair] += all[i].posterior; probability[pair] > most {
			most, m.open, m.close = probability[pair], o, c
		}
	}
	if most == 0 {
		return m
	}
	sum := 0.0
	for i := range all {
		_, _, b := ends(&all[i])
		d := closes[m.close].At - opens[m.open].At - b.time
		sum += all[i].posterior * (d*d + b.variance)
	}
	m.doubt = math.Sqrt(sum)
	return m
}

func starts(x *explanation) (open, close int, b between) {
	return x.open.start, x.close.start, x.start
}

func stops(x *explanation) (open, close int, b between) {
	return x.open.stop, x.close.stop, x.stop
}

// likeEnds chooses the edge by which both ends are timed, times them, and tells what
// doubt, as a standard uncertainty in s, is left that these are like ends; all durations
// have it in common. It is the start of the movements, unless the end stop is known far
// better.
func likeEnds(opens, closes *recording.Movements) (edge shutter.Edge, doubt float64) {
	const far = 0.8 // of the uncertainty
	all := explanations(opens, closes)
	start, stop := likeliest(all, opens.Parts, closes.Parts, starts), likeliest(all, opens.Parts, closes.Parts, stops)
	switch crossed := start.open > stop.open || start.close > stop.close; {
	case math.IsInf(stop.doubt, 1), crossed && start.doubt <= stop.doubt:
		stop = start
	case math.IsInf(start.doubt, 1), crossed:
		start = stop
	}
	opens.Time(start.open, stop.open)
	closes.Time(start.close, stop.close)
	if start == stop {
		return shutter.EdgeStart, start.doubt
	}
	if start.open == stop.open && start.close == stop.close { // one sound each
		if stop.doubt < start.doubt {
			return shutter.EdgeStop, stop.doubt
		}
		return shutter.EdgeStart, start.doubt
	}
	byStart := math.Hypot(start.doubt, commonTo(opens.Start, closes.Start))
	byStop := math.Hypot(stop.doubt, commonTo(opens.Stop, closes.Stop))
	if byStop < far*byStart {
		return shutter.EdgeStop, stop.doubt
	}
	return shutter.EdgeStart, start.doubt
}
