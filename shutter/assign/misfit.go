package assign

import (
	"fmt"
	"math"
	"slices"

	"earshot/shutter"
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
	// told stay likely by minPosterior up to 1.23 stops either way. The limit is a little
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
func (l Laying) misfitOf(firings []shutter.Firing, steps []shutter.Step, logTold, logOther float64) (Misfit, bool) {
	placed := 0
	for _, run := range l.Runs {
		placed += len(run.Firings)
	}
	odds := logTold - logOther + math.Log((1-mistoldChance)/mistoldChance)
	off := l.offAlike(firings, usualOffset-mistoldStops, usualOffset+mistoldStops)
	alike := off.firings > 1 && 2*off.beyond > off.settings
	if !alike && 2*placed >= len(firings) && odds > math.Log((1-minPosterior)/minPosterior) {
		return Misfit{}, false
	}
	m := Misfit{
		Why:  "the speeds told do not fit what was heard: told " + shutter.FormatSteps(steps),
		Next: "check the speeds told against the dial",
	}
	if nearest := ran(LayNearest(firings).Runs); len(nearest) > 0 {
		m.Why += ", heard what would be usual for " + shutter.FormatSteps(nearest)
	}
	if alike {
		m.Next += fmt.Sprintf(": if they are right, the shutter is %s throughout and wants service", shutter.DeviationText(off.stops))
	}
	return m, true
}

// offAlike is how far the settings of a laying are off together.
type offAlike struct {
	settings, firings int     // that have a duration
	beyond            int     // settings that have all firings beyond a limit, all of these on one side
	stops             float64 // that the settings are off in the middle
}

// offAlike counts the settings whose firings are all fast by at least a limit, and those
// whose firings are all slow by at least a limit. It returns the larger number.
func (l Laying) offAlike(firings []shutter.Firing, fast, slow float64) (off offAlike) {
	var medians []float64
	short, long := 0, 0
	for _, run := range l.Runs {
		var x []float64
		for _, i := range run.Firings {
			if d, ok := firings[i].DeviationFrom(run.Mark); ok {
				x = append(x, d)
			}
		}
		if len(x) == 0 {
			continue
		}
		off.firings += len(x)
		medians = append(medians, shutter.Median(x))
		switch {
		case slices.Min(x) >= slow:
			long++
		case slices.Max(x) <= fast:
			short++
		}
	}
	off.settings, off.beyond, off.stops = len(medians), max(short, long), shutter.Median(medians)
	return off
}

// neighbourFits warns where every setting is nearer to the next mark of the modern series
// than to its own. Either the shutter is that far off, or the dial was read one mark wrong;
// both sound the same.
func (l Laying) neighbourFits(firings []shutter.Firing) []string {
	off := l.offAlike(firings, -likeWithin, likeWithin)
	if off.firings < 2 || off.beyond < off.settings {
		return nil
	}
	return []string{fmt.Sprintf("all that was heard is %s: see that the speeds told are those on the dial, since one mark off sounds the same", shutter.DeviationText(off.stops))}
}
