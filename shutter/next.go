package shutter

import (
	"fmt"
	"math"
)

// mostFirings is how many firings at one speed a person may be asked for.
const mostFirings = 20

// tellSettings is alike for every speed and for the shutter, so that it need be said
// only once.
const tellSettings = "tell the settings of the dial with --speeds, so that the speeds are judged against their marks"

// next says what would settle or improve the verdict of a speed; empty where
// nothing would.
func (j *judging) next(t *trial) string {
	label, f := t.speed.Mark.Label, t.figures
	switch {
	case t.freeing && t.firingsWith(NeedsExercise) == nil:
		return fmt.Sprintf("fire %s five more times: it may be freeing up as it is fired", label)
	case t.speed.Verdict == Good || t.speed.Verdict == ServiceAdvised:
		return ""
	case t.speed.Assumed:
		return tellSettings
	case f.N < goodFirings:
		return fmt.Sprintf("fire %s at least three times: %s more", label, firingsCount(goodFirings-f.N))
	}
	return j.nextByCount(t)
}

// nextByCount says how many more firings of a speed with three or more would
// settle it, or what else would.
func (j *judging) nextByCount(t *trial) string {
	label, f := t.speed.Mark.Label, t.figures
	unjudged := t.speed.Verdict == NotJudged
	switch {
	case unjudged && f.Budget.systematic() > sureStops:
		return label + " needs a test by light: no number of firings makes sound surer of it"
	case unjudged && f.Budget.Onset > f.Budget.Repeatability:
		return "record " + label + " again, nearer the shutter and in a quieter room"
	case !unjudged && j.settles(t, f.N):
		return ""
	}
	for n := f.N + 1; n <= mostFirings; n++ {
		if j.settles(t, n) {
			return fmt.Sprintf("fire %s %s more", label, timesText(n-f.N))
		}
	}
	if unjudged {
		return fmt.Sprintf("fire %s at least ten times more", label)
	}
	return ""
}

// settles tells whether n firings that go on as those so far would leave no limit
// within mean ± U95, nor U95 too large to judge.
func (j *judging) settles(t *trial, n int) bool {
	f := t.figures
	u := t.scatterAfter(n).halfWidth(n)
	onset := normal95 * ofMean(t.onsets).after(float64(n)/float64(f.N))
	u95 := math.Hypot(math.Hypot(u, onset), f.Budget.systematic())
	return u95 <= sureStops && clears(f.Deviation, u95, j.policy.Good) && clears(f.Deviation, u95, j.policy.Service)
}

// scatterAfter returns the scatter known once n firings have gone on as those so
// far: each more adds a degree of freedom.
func (t *trial) scatterAfter(n int) scatter {
	return scatter{s: t.scatter.s, df: t.scatter.df + n - len(t.x)}
}

// clears tells whether mean ± U95 lies on one side of a limit.
func clears(mean, u95, limit float64) bool {
	return math.Abs(math.Abs(mean)-limit) >= u95
}
