package shutter

import (
	"fmt"
	"math"
)

// lacks says what a check of the whole dial lacks: nothing for none. Where nothing
// was judged at all, that itself says more than how few speeds were.
func (j *judging) lacks() []string {
	c := &j.check
	var lacks []string
	judged := 0
	var open, beyond []Mark // speeds fired and not judged, and those perhaps beyond the service limit
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
		lacks = append(lacks, fmt.Sprintf("the firings at %s leave open whether it is off by more than %s", marksText(beyond), limitText(j.policy.Service)))
	}
	if unheard := j.laying.Unheard; len(unheard) > 0 {
		lacks = append(lacks, "told, but no firing heard at "+marksText(unheard))
	}
	return lacks
}

// leftOpen tells whether a speed has no verdict, or not service advised, only for
// its firings: how they differ, how few they are, or how well they were heard. Any
// number of firings that agree perfectly, on the mark or where they lie in the mean,
// would have it. So it is not told of a speed that is too fast for sound.
func (j *judging) leftOpen(t *trial) bool {
	x := t.figures.Deviation
	switch t.speed.Verdict {
	case NotJudged:
		return j.surest(t, 0) <= sureStops || j.surest(t, x) <= sureStops || j.surelyBeyond(t, x)
	case Steady:
		return j.surelyBeyond(t, x)
	}
	return false
}

// surest is the U95 in stops of any number of firings of the speed that agree
// perfectly, x stops off its mark.
func (j *judging) surest(t *trial, x float64) float64 {
	return j.policy.systematic(t.speed.Mark.Nominal * math.Exp2(x)).u95()
}

// surelyBeyond tells whether firings that agree perfectly about x would lie beyond
// the service limit for sure.
func (j *judging) surelyBeyond(t *trial, x float64) bool {
	return math.Abs(x)-j.surest(t, x) > j.policy.Service
}

// keepsFromGood tells whether a speed that is not judged keeps the shutter from being
// called good. One that its firings leave open does where its figures are short of
// good: had they agreed better it would be steady, and no shutter may look better for
// a firing that is worse. A single firing surely within the good limit says nothing
// against it, nor does a mark that was only assumed.
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
