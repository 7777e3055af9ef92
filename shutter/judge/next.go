package judge

import (
	"fmt"
	"math"

	"earshot/shutter"
)

// mostFirings is how many firings at one speed a person may be asked for.
const mostFirings = 20

// tellSettings is the same for every speed and for the shutter, so that it is said only
// once.
const tellSettings = "tell the settings of the dial with --speeds, so that the speeds are judged against their marks"

// next says what would settle or improve the verdict of a speed; empty where
// nothing would.
func (j *judging) next(t *trial) string {
	label, f := t.speed.Mark.Label, t.figures
	switch {
	case t.firingsWith(NeedsExercise) != nil:
		return fmt.Sprintf("fire %s some twenty times, let it rest for a day and record it again: what frees up may stiffen again", label)
	case t.freeing:
		return fmt.Sprintf("fire %s five more times: it may be freeing up as it is fired", label)
	case t.speed.Verdict == Good || t.speed.Verdict == ServiceAdvised:
		return ""
	case f.N < goodFirings && j.unfit(t) != "":
		return fmt.Sprintf("record %s again: %s", label, j.unfit(t))
	case t.speed.Assumed:
		return tellSettings
	}
	return j.nextByCount(t)
}

// unfit says why a firing of the speed was of no use, as heard; empty where all were.
func (j *judging) unfit(t *trial) string {
	for _, i := range t.speed.Firings {
		if why := j.check.Firings[i].Unfit; why != "" {
			return fmt.Sprintf("of firing %d %s", i+1, why)
		}
	}
	return ""
}

// nextByCount says how many more firings of a speed would settle its verdict, or what else
// would.
func (j *judging) nextByCount(t *trial) string {
	label, f := t.speed.Mark.Label, t.figures
	unjudged := f.N > 1 && t.speed.Verdict == NotJudged
	vague := fmt.Sprintf("record %s again, nearer the shutter and in a quieter room", label)
	switch {
	case unjudged && f.Budget.systematic() > mostU95:
		return label + " needs a test by light: no number of firings makes sound surer of it"
	case unjudged && f.Budget.Onset > f.Budget.Repeatability:
		return vague
	case f.N >= goodFirings && !unjudged && j.settles(t, f.N):
		return ""
	}
	n := j.enough(t)
	switch {
	case f.N < goodFirings && (n <= goodFirings || n > mostFirings):
		return fmt.Sprintf("fire %s at least three times: %s more", label, shutter.FiringsCount(goodFirings-f.N))
	case n <= mostFirings:
		return fmt.Sprintf("fire %s %s more", label, timesText(n-f.N))
	case unjudged:
		return fmt.Sprintf("fire %s at least ten times more", label)
	case !j.clearOfLimits(f.Deviation, f.Budget.systematic()):
		return fmt.Sprintf("%s lies too near a limit for sound to tell, a test by light would", label)
	case normal95*ofMean(t.onsets).common > f.Budget.systematic():
		return vague
	case j.leftOpen(t):
		return fmt.Sprintf("fire %s at least ten times more", label)
	}
	return ""
}

// enough is how many firings in all would settle the speed, at least as many as good needs. It
// is more than mostFirings if mostFirings would not settle it.
func (j *judging) enough(t *trial) int {
	n := max(t.figures.N+1, goodFirings)
	for ; n <= mostFirings; n++ {
		if t.scatter.df > 0 && j.settles(t, n) {
			break
		}
	}
	return n
}

// settles tells whether n firings that scatter like those so far would settle the speed: no
// limit lies within mean ± U95, and U95 is small enough to judge.
func (j *judging) settles(t *trial, n int) bool {
	f := t.figures
	u := t.scatterAfter(n).halfWidth(n)
	onset := normal95 * ofMean(t.onsets).after(float64(n)/float64(f.N))
	u95 := math.Hypot(math.Hypot(u, onset), f.Budget.systematic())
	return u95 <= mostU95 && j.clearOfLimits(f.Deviation, u95)
}

// clearOfLimits tells whether mean ± U95 holds no limit.
func (j *judging) clearOfLimits(mean, u95 float64) bool {
	return clears(mean, u95, j.policy.Good) && clears(mean, u95, j.policy.Service)
}

// scatterAfter returns the scatter as it is known after n firings that scatter like those so
// far. Each firing adds a degree of freedom.
func (t *trial) scatterAfter(n int) scatter {
	return scatter{s: t.scatter.s, df: t.scatter.df + n - len(t.x)}
}

// clears tells whether mean ± U95 lies on one side of a limit.
func clears(mean, u95, limit float64) bool {
	return math.Abs(math.Abs(mean)-limit) >= u95
}
