package judge

import (
	"math"

	"earshot/shutter"
)

// sumUp works out the figures of every speed.
func (j *judging) sumUp() {
	buzzing, silent := j.pools()
	for _, t := range j.trials {
		pooled := silent
		if t.buzz {
			pooled = buzzing
		}
		t.scatter = t.scatterFor(pooled)
		t.figures = t.sumUp(j.policy, j.check.Firings)
		t.speed.Summary = t.figures
		if j.misleads(t) {
			t.speed.Summary.hideMean()
		}
	}
}

// sumUp returns the figures of one speed, the zero Summary where nothing counts.
// U95 and its budget are 0 where they are not known: for one firing without any
// other speed of its kind to tell how far it scatters.
func (t *trial) sumUp(p Policy, firings []JudgedFiring) Summary {
	if len(t.x) == 0 {
		return Summary{}
	}
	m := shutter.Mean(t.x)
	s := Summary{
		N:         len(t.x),
		Deviation: m,
		Duration:  math.Exp2(math.Log2(t.speed.Mark.Nominal) + m),
		Median:    shutter.Median(t.x),
		First:     firings[t.counted[0]].Duration(),
		SD:        shutter.SD(t.x),
		Spread:    shutter.Range(t.x),
	}
	if t.scatter.df > 0 {
		s.Scatter, s.DF = t.scatter.s, t.scatter.df
		s.Budget = t.budget(p, s.Duration)
		s.U95 = s.Budget.u95()
	}
	return s
}

// misleads tells whether a mean would mislead. The firings may spread too far. Or one hung
// open or closed early, and would be left out of the mean or move it.
func (j *judging) misleads(t *trial) bool {
	early := len(t.firingsWith(ClosesEarly))
	return len(t.hung) > 0 || shutter.Range(t.x) > j.spreadLimits(len(t.x)).service || early > 0 && early < len(t.x)
}

// hideMean takes the mean and what hangs on it out of the summary.
func (s *Summary) hideMean() {
	s.MeanHidden = true
	s.Deviation, s.Duration, s.U95, s.Budget = 0, 0, 0, Budget{}
	s.Scatter, s.DF = 0, 0
}
