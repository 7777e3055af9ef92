package judge

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"earshot/shutter"
	"earshot/shutter/assign"
)

// conclude gives each speed its verdict, and then the shutter.
func (j *judging) conclude() {
	c := &j.check
	c.Speeds = make([]Speed, len(j.trials))
	for i, t := range j.trials {
		t.speed.Verdict, t.speed.Why = j.judgement(t)
		t.speed.Next = j.next(t)
		c.Speeds[i] = t.speed
		c.Verdict = worst(c.Verdict, t.speed.Verdict)
	}
	var doubtful []shutter.Mark
	for _, t := range j.trials {
		if j.keepsFromGood(t) {
			doubtful = append(doubtful, t.speed.Mark)
		}
	}
	switch {
	case len(c.Symptoms) > 0:
		c.Verdict = ServiceAdvised
	case c.Verdict == Good && len(doubtful) > 0:
		c.Verdict = Steady
	}
	lacks := j.lacks()
	c.Partly = len(lacks) > 0 && c.Verdict != NotJudged
	c.Why = c.reasons(j.misfitReasons(), doubtful, lacks)
	c.Next = c.advice(j.laying)
}

// misfitReasons says in a sentence each which settings told do not fit, and which firings hung
// and are not judged for that reason.
func (j *judging) misfitReasons() []string {
	var why []string
	for _, m := range j.laying.Misfits {
		why = append(why, m.Why)
	}
	if len(j.unjudgedHung) > 0 {
		why = append(why, firingsText(j.unjudgedHung)+" opened and stayed open by the sound, which is not judged either while the speeds told do not fit; blades that were seen to stay open want service whatever the speed")
	}
	return why
}

// reasons says why the shutter has its verdict, in a sentence each: settings told that do not
// fit, the symptoms of the whole, the speeds that decide it, those that could not be judged,
// and what the check lacks.
func (c *Check) reasons(misfits []string, doubtful []shutter.Mark, lacks []string) []string {
	why := append([]string{}, misfits...)
	for _, s := range c.Symptoms {
		why = append(why, s.Why)
	}
	why = append(why, c.speedReasons(doubtful)...)
	switch {
	case len(c.Firings) == 0:
		why = append(why, "no firing was heard")
	case len(why) == 0:
		why = append(why, "no firing could be placed at a speed")
	}
	for _, l := range lacks {
		if c.Partly {
			l = "partly checked: " + l
		}
		why = append(why, l)
	}
	return why
}

// speedReasons gives the reasons of the speeds: first those that decide the verdict, then those
// that could not be judged. doubtful are those not judged that keep the shutter from being
// good.
func (c *Check) speedReasons(doubtful []shutter.Mark) []string {
	var why []string
	for _, s := range c.Speeds {
		if s.Verdict == c.Verdict && s.Verdict != Good && s.Verdict != NotJudged {
			why = append(why, s.Mark.Label+": "+s.Why)
		}
	}
	switch good := "every speed judged is near its mark and repeats: " + strings.Join(c.labels(Good), ", "); {
	case c.Verdict == Good:
		why = append(why, good)
	case len(why) == 0 && c.Verdict == Steady:
		why = append(why, fmt.Sprintf("%s; not called good as a whole, since %s may not be", good, marksText(doubtful)))
	}
	for _, s := range c.Speeds {
		if s.Verdict == NotJudged {
			why = append(why, s.Mark.Label+" is not judged: "+s.Why)
		}
	}
	return why
}

// labels returns the marks of the speeds with the verdict, in dial order.
func (c *Check) labels(v Verdict) []string {
	var labels []string
	for _, s := range c.Speeds {
		if s.Verdict == v {
			labels = append(labels, s.Mark.Label)
		}
	}
	return labels
}

// advice says what would settle or improve the shutter's verdict: first what to do about
// settings that do not fit, then the advice of the slowest speed that has any, since slow
// speeds fail first, then what the check lacks.
func (c *Check) advice(l assign.Laying) string {
	if len(c.Firings) == 0 {
		return "record each slow speed fired three to five times, with the phone 10 to 30 cm away"
	}
	var parts []string
	for _, m := range l.Misfits {
		if !slices.Contains(parts, m.Next) {
			parts = append(parts, m.Next)
		}
	}
	if slices.ContainsFunc(c.Speeds, func(s Speed) bool { return s.Assumed }) {
		parts = append(parts, tellSettings)
	}
	for _, s := range c.Speeds {
		if s.Next != "" && !s.Assumed {
			parts = append(parts, s.Next)
			break
		}
	}
	if len(l.Unheard) > 0 {
		parts = append(parts, fmt.Sprintf("record %s as well, fired three times or more", marksText(l.Unheard)))
	}
	switch {
	case len(parts) > 0:
	case len(c.Speeds) == 0:
		parts = append(parts, "tell the settings of the dial with --speeds, in the order fired")
	case c.Partly:
		parts = append(parts, "record at least four speeds, the slowest among them, each fired three times or more")
	}
	if end := c.afterwards(len(parts) == 0); end != "" && len(l.Misfits) == 0 {
		parts = append(parts, end)
	}
	return strings.Join(parts, "; ")
}

// afterwards says what to do with the shutter as a whole, as far as it was judged. For a good
// one it does so only if the check has no other advice.
func (c *Check) afterwards(complete bool) string {
	switch c.Verdict {
	case ServiceAdvised:
		return "have the shutter serviced, then record it again in the same way and compare the two, or sell it with these findings stated"
	case Steady:
		return "state the true speeds when you sell it, and keep this record to compare with later"
	case Good:
		if complete {
			return "nothing more is needed: keep this record to compare with later"
		}
	}
	return ""
}

// lacks says what a check of the whole dial lacks, which may be nothing. If no speed was
// judged, it does not count them.
func (j *judging) lacks() []string {
	c := &j.check
	var lacks []string
	judged := 0
	var open, beyond []shutter.Mark // speeds fired and not judged, and those perhaps beyond the service limit
	for i, t := range j.trials {
		mark := t.speed.Mark
		switch {
		case t.speed.Verdict != NotJudged:
			judged++
			if t.speed.Verdict == Steady && j.leftOpen(t) {
				beyond = append(beyond, mark)
			}
		case i > 0 && j.leftOpen(t):
			open = append(open, mark)
		}
	}
	switch {
	case len(c.Firings) == 0:
		return nil
	case c.Verdict == NotJudged:
	case judged < fullSpeeds:
		lacks = append(lacks, speedsCount(judged)+" judged, and four make a check")
	default:
		if c.Speeds[0].Verdict == NotJudged {
			lacks = append(lacks, fmt.Sprintf("the slowest speed, %s, was not judged", c.Speeds[0].Mark.Label))
		}
		if len(open) > 0 {
			lacks = append(lacks, "fired, but not judged at "+marksText(open))
		}
	}
	if len(beyond) > 0 && c.Verdict == Steady {
		lacks = append(lacks, fmt.Sprintf("the firings at %s leave open whether it is off by more than %s", marksText(beyond), shutter.LimitText(j.policy.Service)))
	}
	if unheard := j.laying.Unheard; len(unheard) > 0 {
		lacks = append(lacks, "told, but no firing heard at "+marksText(unheard))
	}
	return lacks
}

// leftOpen tells whether only its firings keep a speed from a verdict, or from service
// advised: they differ, are too few, or were heard badly. Firings that agree perfectly, on the
// mark or about the same mean, would settle it. A speed that is too fast for sound is not left
// open.
func (j *judging) leftOpen(t *trial) bool {
	x := t.figures.Deviation
	switch t.speed.Verdict {
	case NotJudged:
		return j.leastU95(t, 0) <= mostU95 || j.leastU95(t, x) <= mostU95 || j.wouldBeBeyond(t, x)
	case Steady:
		return j.wouldBeBeyond(t, x)
	}
	return false
}

// leastU95 is the U95, in stops, of firings of the speed that agree perfectly, x stops off its
// mark. Their number does not matter.
func (j *judging) leastU95(t *trial, x float64) float64 {
	return j.policy.systematic(t.speed.Mark.Nominal * math.Exp2(x)).u95()
}

// wouldBeBeyond tells whether firings that agree perfectly about x would lie beyond the
// service limit by more than their U95.
func (j *judging) wouldBeBeyond(t *trial, x float64) bool {
	return math.Abs(x)-j.leastU95(t, x) > j.policy.Service
}

// keepsFromGood tells whether a speed that is not judged keeps the shutter from being
// called good. A speed that its firings leave open does so if its figures are short of good:
// with better agreement it would be steady, and no shutter may look better for a worse firing.
// A single firing whose U95 lies within the good limit does not, nor does an assumed mark.
func (j *judging) keepsFromGood(t *trial) bool {
	f := t.figures
	switch {
	case t.speed.Verdict != NotJudged || t.speed.Assumed || !j.leftOpen(t):
		return false
	case f.N > 1:
		return j.shortOfGood(t) != ""
	}
	return math.Abs(f.Deviation)+f.U95 > j.policy.Good
}
