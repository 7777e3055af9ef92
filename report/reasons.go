package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"earshot/report/words"
	"earshot/shutter"
	"earshot/shutter/judge"
)

// SteadyWords says what the verdict steady means, wherever one is given; it is empty
// where none is.
func (d Document) SteadyWords() string {
	if !slices.ContainsFunc(d.Speeds, func(s Speed) bool { return s.Verdict == judge.Steady }) {
		return ""
	}
	return "steady: it repeats, but is off its mark or near a limit; state the measured speed when it is sold"
}

// Reasons says why the shutter has its verdict, a line each. A reason of several speeds is said
// once, with all of them: "1 to 1/8 s: 0.8 stop slow".
func (d Document) Reasons() []string { return d.grouped(d.Why) }

// Headlines says in plain words what matters most: the symptoms first, then the other reasons
// for the verdict.
func (d Document) Headlines() []string {
	var lines, rest []string
	for _, f := range d.Findings() {
		lines = append(lines, f.Plainly())
	}
	for _, why := range d.Why {
		if s, ok := d.reasonOf(why); !d.symptomSays(why) && (!ok || len(s.Symptoms) == 0) {
			rest = append(rest, why)
		}
	}
	lines = append(lines, d.grouped(rest)...)
	switch steady := d.SteadyWords(); {
	case steady == "":
		return lines
	case d.Verdict == judge.Steady:
		return append([]string{steady}, lines...)
	default:
		return append(lines, steady)
	}
}

func (d Document) symptomSays(why string) bool {
	return slices.ContainsFunc(d.Symptoms, func(y Symptom) bool { return y.Why == why })
}

// grouped gives reasons, those that speak of speeds and say the same as one.
func (d Document) grouped(whys []string) []string {
	var (
		lines  []string
		at     []int // place in lines of each gist
		gists  []string
		speeds [][]Speed
	)
	for _, why := range whys {
		s, ok := d.reasonOf(why)
		if !ok {
			lines = append(lines, why)
			continue
		}
		gist := d.gist(s)
		i := slices.Index(gists, gist)
		if i < 0 {
			i = len(gists)
			gists, speeds, at = append(gists, gist), append(speeds, nil), append(at, len(lines))
			lines = append(lines, "")
		}
		speeds[i] = append(speeds[i], s)
		lines[at[i]] = fmt.Sprintf(gist, marksOf(speeds[i]))
	}
	return lines
}

// reasonOf is the speed that a reason of the shutter's verdict speaks of.
func (d Document) reasonOf(why string) (Speed, bool) {
	for _, s := range d.Speeds {
		if why == s.Marked+": "+s.Why || why == s.Marked+" is not judged: "+s.Why {
			return s, true
		}
	}
	return Speed{}, false
}

// gist is the reason for the verdict of a speed as a format for its mark, without the
// figures that stand in the table.
func (d Document) gist(s Speed) string {
	literal := strings.NewReplacer("%", "%%").Replace
	switch {
	case s.Verdict == judge.NotJudged:
		return "not judged at %s: " + literal(s.Why)
	case s.Verdict == judge.Steady && s.Deviation != nil && s.U95 != nil:
		return "%s: " + shutter.DeviationText(*s.Deviation) + d.shortOfGood(s) + meter(*s.Deviation)
	case s.Verdict == judge.ServiceAdvised && len(s.Symptoms) == 0 && s.Deviation != nil:
		return "%s: " + shutter.DeviationText(*s.Deviation) + ", beyond the limit of " + words.Stops(d.Policy.Service)
	}
	return "%s: " + literal(s.Why)
}

// shortOfGood says what keeps a steady speed from being good, if it is not its deviation.
func (d Document) shortOfGood(s Speed) string {
	const good = 3 // fewest firings that can be called good
	switch far := math.Abs(*s.Deviation); {
	case far > d.Policy.Good:
		return ""
	case far+*s.U95 > d.Policy.Good:
		return ", too near the limit of " + words.Stops(d.Policy.Good) + " to call it good"
	case s.N < good:
		return ", from too few firings to call it good"
	}
	return ", but its firings differ too much to call it good"
}

// meter says how to set a meter for a speed that is off by a third of a stop or more.
func meter(deviation float64) string {
	if words := shutter.MeterText(deviation); words != shutter.MeterText(0) {
		return "; set a meter " + words
	}
	return ""
}
