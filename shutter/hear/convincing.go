package hear

import (
	"math"
	"slices"

	"earshot/shutter"
)

// What a set must have to be firings, other than sounding alike.
const (
	few         = 2   // firings that have hardly another to be like
	unpaired    = 0.5 // like sounds may belong to none for each of the others
	dialCertain = 3   // odds, 20 to 1, from which the steps of a dial show
)

// recurs is the evidence for a set of pairs that repeat: a shutter that is tested is fired
// again and again, and there is hardly another thing in the clip that would repeat too.
const recurs = 3

// setTerms are what speaks for a set being the firings of a shutter, or against it, in the
// order in which they are told. A set is worth the sum of all but the last; with that it
// is what is left of the worth.
//
// Whatever comes again and again comes with the same sounds. That each of twenty strokes
// of a lever scrapes and clicks as a shutter might is no more evidence than that one does.
// So what the firings say each by itself counts once, as their mean. What only all of them
// tell adds up: how long they last one after the other, and everything else that was heard.
// That the sounds of a set are like each other counts for nothing: so are those of any set.
var setTerms = [numSetTerms]struct {
	value func(*weighedSet) float64
	words string
}{
	dialSteps:    {(*weighedSet).dialSteps, "their lengths, against the steps of a dial"},
	keepsTime:    {(*weighedSet).keepsTime, "they all last as long as each other"},
	leadChosen:   {(*weighedSet).leadChosen, "some sound or other comes as long before most openings by chance"},
	background:   {(*weighedSet).background, "other sounds as loud are heard"},
	windings:     {(*weighedSet).windings, "time to wind between one and the next"},
	meanEvidence: {(*weighedSet).meanEvidence, "each by itself, in the mean"},
	endsAlike:    {(*weighedSet).endsAlike, "openings sound like closings where no escapement is heard"},
	fewFirings:   {(*weighedSet).fewFirings, "one firing or two, of which less is asked; two may repeat each other"},
	showsTiming:  {(*weighedSet).showsTiming, "an escapement, repetition or a dial shows that a shutter timed them"},
	notExplained: {(*weighedSet).notExplained, "sounds like theirs belong to no firing"},
}

const (
	dialSteps = iota
	keepsTime
	leadChosen
	background
	windings
	meanEvidence
	endsAlike
	fewFirings
	showsTiming
	notExplained
	numSetTerms
)

// weighedSet is a set with the model of the shutter that it teaches.
type weighedSet struct {
	*model
	set []pair
	all []pair // with the fast firings, in time order
}

// weigh gives the value of each of setTerms for a set.
func (m *model) scoreSet(set []pair) (values [numSetTerms]float64) {
	w := &weighedSet{m, set, inOrder(set, m.fast)}
	for i := range setTerms {
		values[i] = setTerms[i].value(w)
	}
	return values
}

// worthOf is how much a set looks like the firings of a shutter rather than what some other
// thing does again and again, as a logarithm of odds: before the sounds that the set leaves
// unexplained count, and after.
func worthOf(values [numSetTerms]float64) (before, after float64) {
	for _, value := range values[:notExplained] {
		before += value
	}
	return before, before + values[notExplained]
}

func (w *weighedSet) dialSteps() float64 { return dialOdds(w.all) }

// keepsTime is that a set comes again and again. Clocks do too, and are told by their beat.
func (w *weighedSet) keepsTime() float64 {
	if steady(w.set) {
		return recurs
	}
	return 0
}

func (w *weighedSet) leadChosen() float64 {
	if w.releaseLead > 0 {
		return -leadChoice
	}
	return 0
}

func (w *weighedSet) background() float64 { return -w.othersOdds(w.set) }

func (w *weighedSet) windings() (sum float64) {
	for i := 1; i < len(w.all); i++ {
		sum += winding(w.r.gap(&w.all[i-1], &w.all[i], w.releaseLead))
	}
	return sum
}

func (w *weighedSet) meanEvidence() float64 {
	sum := 0.0
	for i := range w.all {
		sum += w.all[i].evidence
	}
	if len(w.set) >= fewestLeads {
		for i := range w.set {
			sum += w.released(&w.set[i])
		}
	}
	return sum / float64(len(w.all))
}

// endsAlike is that openings which sound like closings are those of a clock, or knocks. It
// counts for each firing in which no escapement was heard.
func (w *weighedSet) endsAlike() float64 {
	unheard := 0.0
	for i := range w.set {
		unheard += 1 - w.set[i].heard()
	}
	return -w.alikeOdds * unheard / float64(len(w.all))
}

func (w *weighedSet) fewFirings() float64 {
	if len(w.set) <= few {
		return w.fewOdds(w.set)
	}
	return 0
}

func (w *weighedSet) showsTiming() float64 {
	if shows(w.all) && len(w.all) > few {
		return recurs
	}
	return 0
}

func (w *weighedSet) notExplained() float64 { return -w.unexplained(w.set) }

// convincing tells whether a set is the firings of a shutter at all, given its worth before
// and after the sounds count that it leaves unexplained. Sounds that only come in like
// pairs, and have nothing else of a firing, are those of a clock or a keyboard.
func (m *model) convincing(set []pair, worth, net float64) bool {
	all := inOrder(set, m.fast)
	others := float64(max(0, len(set)-few))
	if !shows(all) {
		others = 0
	}
	most := 2*len(set) >= len(all) // a few of many may keep time by chance
	return worth > 0 && net > -unpaired*stranger*others && !(most && m.r.beats(set)) && !m.r.beats(all)
}

// beats tells whether the sounds of a set keep time as a clock does: they are whole numbers
// of one interval apart. Nobody winds and fires a shutter so evenly. Three things show that
// it is a shutter nevertheless: it buzzes; its spans are longer than a tick and go in the
// steps of a dial; or they are longer than a tick and far shorter than half the beat, at
// which a clock tocks.
func (r *recordedClip) beats(set []pair) bool {
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
	if 2*buzz > float64(len(set)) || span > tick && (span < tocks*shortest || dialOdds(set) > dialCertain) {
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
