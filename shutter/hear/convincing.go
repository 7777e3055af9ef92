package hear

import (
	"math"
	"slices"

	"earshot/shutter"
)

// What a set of firings must have to be one, besides being alike.
const (
	few      = 2   // firings that have hardly another to be like
	unpaired = 0.5 // like sounds may belong to none for each of the others
	sure     = 3   // odds, 20 to 1, from which the steps of a dial show
)

// recurs is the evidence for a set that it comes again and again, against one that
// came once or twice: else something other than the shutter had done so besides.
const recurs = 3

// worth is how much a set looks like the firings of a shutter and not like what
// some other thing does again and again, as a logarithm of odds. That its sounds
// are like each other's speaks for neither. That openings sound like closings speaks
// for a clock, or knocks, and so against each firing in which no escapement was heard.
//
// Whatever comes again and again does so with the same sounds: that each of twenty
// strokes of a lever scrapes and clicks as a shutter might is no more evidence than that
// one does. So what the firings say each by itself counts once, in the mean. What only
// all of them tell adds up: how long they last one after the other, and all that was
// heard besides.
func (v *voice) worth(set []pair) float64 {
	all := inOrder(set, v.fast)
	dial := dialOdds(all)
	sum, each, unheard := dial, 0.0, 0.0
	if steady(set) { // clocks are told by their beat
		sum += recurs
	}
	if v.lead > 0 {
		sum -= leadChoice
	}
	sum -= v.amid(set)
	for i := range all {
		each += all[i].evidence
		if i > 0 {
			sum += winding(v.r.gap(&all[i-1], &all[i], v.lead))
		}
	}
	for i := range set {
		unheard += 1 - set[i].heard()
		if len(set) >= fewestLeads {
			each += v.released(&set[i])
		}
	}
	if len(set) <= few {
		sum += v.fewOdds(set)
	}
	if shows(all) && len(all) > few {
		sum += recurs
	}
	return sum + (each-v.alike*unheard)/float64(len(all))
}

// convincing tells whether a set is the firings of a shutter at all, given its worth and
// what is left of that with the sounds it leaves unexplained: sounds that have nothing of
// a firing but that they come in like pairs are a clock's, or somebody's at a keyboard.
func (v *voice) convincing(set []pair, worth, left float64) bool {
	all := inOrder(set, v.fast)
	others := float64(max(0, len(set)-few))
	if !shows(all) {
		others = 0
	}
	most := 2*len(set) >= len(all) // a few of many may keep time by chance
	return worth > 0 && left > -unpaired*stranger*others && !(most && v.r.beats(set)) && !v.r.beats(all)
}

// beats tells whether the sounds of a set come in time: they keep to whole numbers
// of one interval, as nobody winds and fires a shutter. What buzzes is none the less
// a shutter, fired in time, and so is what lasts longer than a tick and goes in the
// steps of a dial or is closed long before half the beat, at which a clock tocks.
func (r *room) beats(set []pair) bool {
	const (
		enough = 3    // firings by which a beat can be told, if it is kept thrice as well,
		many   = 12   // and by which that of every other can
		evenly = 0.03 // an interval this near to a whole number is in time, as a part of the beat
		tocks  = 0.3  // of the shortest interval: a clock's next tick comes no sooner
	)
	if len(set) < enough {
		return false
	}
	buzz := 0.0
	var intervals, spans []float64
	for i := range set {
		buzz += set[i].heard()
		spans = append(spans, set[i].span)
		if i > 0 {
			intervals = append(intervals, r.sounds[set[i].open].at-r.sounds[set[i-1].open].at)
		}
	}
	shortest, span := slices.Min(intervals), shutter.Median(spans)
	if 2*buzz > float64(len(set)) || span > tick && (span < tocks*shortest || dialOdds(set) > sure) {
		return false
	}
	near := evenly
	if len(set) == enough {
		near /= 3
	}
	return inTime(intervals, shortest, near) || len(set) > many && tickTocks(intervals, near/3)
}

// tickTocks tells whether every other interval keeps time with the next, as near as said:
// a clock's tock need not come half way between its ticks.
func tickTocks(intervals []float64, near float64) bool {
	var twos []float64
	for i := 1; i < len(intervals); i++ {
		twos = append(twos, intervals[i-1]+intervals[i])
	}
	return inTime(twos, slices.Min(twos), near)
}

// inTime tells whether most of the intervals are whole numbers of one beat, each as
// near as said, as a part of it. The shortest may hold a few beats.
func inTime(intervals []float64, shortest, near float64) bool {
	const mostly, missed = 0.8, 3.0 // of the intervals; beats
	most := 0
	for part := 1.0; part <= min(missed, float64(len(intervals)-1)); part++ {
		beats, each := make([]float64, len(intervals)), make([]float64, len(intervals))
		for i, x := range intervals {
			beats[i] = math.Round(x / shortest * part)
			each[i] = x / beats[i]
		}
		beat, even := shutter.Median(each), 0
		for i, x := range intervals {
			if math.Abs(x/beat-beats[i]) < near {
				even++
			}
		}
		most = max(most, even)
	}
	return float64(most) >= mostly*float64(len(intervals))
}
