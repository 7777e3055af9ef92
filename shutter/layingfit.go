package shutter

import (
	"fmt"
	"math"
	"slices"
)

// What is taken for granted about settings that are told; common practice, no
// source. The tests measure how often right ones are taken for wrong, and wrong ones
// for right.
const (
	// mistoldChance is the chance that the settings told are those of another
	// lens, clip or dial.
	mistoldChance = 0.02
	// mistoldStops off usualOffset, and most settings off alike, mistold settings
	// are likelier than such a shutter. Where offsets are normal with offsetScale about
	// usualOffset, and mistold settings off by anything within 5 stops, the settings
	// told stay likely by sureEnough up to 1.23 stops either way. The limit is a little
	// wider, so that a shutter that runs a whole stop slow or fast is still judged.
	mistoldStops = 1.4
)

// misfitReason is the doubt about every firing whose told setting does not fit.
const misfitReason = "in doubt: the speeds told do not fit what was heard"

// Misfit says that settings told are hardly those that the firings were made at.
type Misfit struct {
	Why  string // what does not fit
	Next string // what to check
}

// misfitOf tells whether firings do not fit the settings they were laid at: other
// settings, whatever those are, explain them better (logTold and logOther are the
// logs of their chances); most of them fit none; or most settings are off alike by
// more than a shutter is.
func (l Laying) misfitOf(firings []Firing, steps []Step, logTold, logOther float64) (Misfit, bool) {
	placed := 0
	for _, run := range l.Runs {
		placed += len(run.Firings)
	}
	odds := logTold - logOther + math.Log((1-mistoldChance)/mistoldChance)
	off, alike := l.offThroughout(firings)
	if !alike && 2*placed >= len(firings) && odds > math.Log((1-sureEnough)/sureEnough) {
		return Misfit{}, false
	}
	m := Misfit{
		Why:  "the speeds told do not fit what was heard: told " + FormatSteps(steps),
		Next: "check the speeds told against the dial",
	}
	if nearest := ran(LayNearest(firings).Runs); len(nearest) > 0 {
		m.Why += ", heard what would be usual for " + FormatSteps(nearest)
	}
	if alike {
		m.Next += fmt.Sprintf(": if they are right, the shutter is %s throughout and wants service", DeviationText(off))
	}
	return m, true
}

// offThroughout tells whether more than half of the settings have all of their
// firings beyond mistoldStops on one side, and by how many stops the settings are
// off in the middle. One firing alone may be a fault of its own.
func (l Laying) offThroughout(firings []Firing) (off float64, ok bool) {
	var medians []float64 // of each setting with a duration, stops
	timed, slow, fast := 0, 0, 0
	for _, run := range l.Runs {
		var x []float64
		for _, i := range run.Firings {
			if d, ok := deviation(firings[i], run.Mark); ok {
				x = append(x, d)
			}
		}
		if len(x) == 0 {
			continue
		}
		timed += len(x)
		medians = append(medians, median(x))
		switch {
		case slices.Min(x) >= usualOffset+mistoldStops:
			slow++
		case slices.Max(x) <= usualOffset-mistoldStops:
			fast++
		}
	}
	return median(medians), timed > 1 && 2*max(slow, fast) > len(medians)
}
