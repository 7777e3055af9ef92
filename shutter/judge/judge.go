package judge

import (
	"cmp"
	"math"
	"slices"

	"earshot/shutter"
	"earshot/shutter/assign"
)

// Judge says how far each speed is from its mark, how sure that is, what is wrong
// and what would settle it.
//
// The firings are in time order, and the laying's indices point into them; one
// that points nowhere, or a mark whose nominal time is not positive, is a
// programmer's error and panics. No firing is left out: one that cannot be counted
// is listed with its reason. All figures are finite.
//
// A U95 holds for one sitting: rest, temperature and position change a shutter by
// more than it says.
func Judge(firings []shutter.Firing, laying assign.Laying, policy Policy) Check {
	j := newJudging(firings, policy)
	j.place(laying)
	j.findSymptoms()
	j.sumUp()
	j.fitDial()
	j.conclude()
	return j.check
}

// judging is a check under way.
type judging struct {
	policy Policy
	check  Check
	laying assign.Laying
	trials []*trial // one for each speed, in dial order
	limits map[int]spreadLimits

	unjudgedHung []int // firings that never closed and are not judged, since what was told does not fit
}

// newJudging returns a check of the firings before anything is known of their speeds.
func newJudging(firings []shutter.Firing, policy Policy) *judging {
	j := &judging{policy: policy, limits: map[int]spreadLimits{}}
	j.check = Check{
		Policy:   policy,
		Firings:  make([]JudgedFiring, len(firings)),
		Symptoms: []Symptom{},
	}
	for i, f := range firings {
		reason := cmp.Or(f.Unfit, "not at any speed of the dial")
		j.check.Firings[i] = JudgedFiring{Firing: f, Reason: reason, Symptoms: []SymptomName{}}
	}
	return j
}

// spreadLimits are the policy's for one number of firings, in stops.
type spreadLimits struct{ good, service float64 }

// spreadLimits returns the limits for n firings, worked out once for each n.
func (j *judging) spreadLimits(n int) spreadLimits {
	l, ok := j.limits[n]
	if !ok {
		l.good, l.service = j.policy.SpreadLimits(n)
		j.limits[n] = l
	}
	return l
}

// trial is one speed under way. counted, x and onsets run in step over the firings
// that count in its figures, in time order.
type trial struct {
	speed   Speed
	counted []int     // indices into Check.Firings
	x       []float64 // deviations, stops
	onsets  []onsetError
	hung    []int   // firings that never closed, indices into Check.Firings
	buzz    bool    // the escapement was heard in most of the firings counted
	scatter scatter // what the repeatability of the mean is reckoned from
	figures Summary // with the mean, even where it is not to be shown
	freeing bool    // fell by as much as a shutter that frees up, proved or not
}

// place sorts the firings into speeds and says which of them count.
func (j *judging) place(laying assign.Laying) {
	j.laying = laying
	j.check.Warnings = append([]string{}, laying.Warnings...)
	doubts := make(map[int]string, len(laying.Doubts))
	for _, d := range laying.Doubts {
		doubts[d.Firing] = d.Reason
		f := &j.check.Firings[d.Firing]
		f.Reason = cmp.Or(f.Unfit, d.Reason)
	}
	for _, run := range laying.Runs {
		t := j.trialOf(run)
		t.speed.Firings = append(t.speed.Firings, run.Firings...)
	}
	slices.SortStableFunc(j.trials, func(a, b *trial) int {
		return shutter.DialOrder(a.speed.Mark, b.speed.Mark)
	})
	for _, t := range j.trials {
		slices.Sort(t.speed.Firings)
		for _, i := range t.speed.Firings {
			t.take(i, &j.check.Firings[i], doubts[i], j.policy.fast())
		}
		t.buzz = j.buzzes(t)
	}
}

// trialOf returns the trial of the run's speed, a new one where there is none.
func (j *judging) trialOf(run assign.Run) *trial {
	for _, t := range j.trials {
		if t.speed.Mark == run.Mark && t.speed.Assumed == run.Assumed {
			return t
		}
	}
	if !(run.Mark.Nominal > 0) || math.IsInf(run.Mark.Nominal, 0) {
		panic("judge: a mark without a nominal time")
	}
	t := &trial{speed: Speed{Mark: run.Mark, Assumed: run.Assumed, Firings: []int{}, Symptoms: []Symptom{}}}
	j.trials = append(j.trials, t)
	return t
}

// take places firing i at the trial's speed, and counts it if it can be counted. fast is by
// how much the recorder's clock made it longer, in stops.
func (t *trial) take(i int, f *JudgedFiring, doubt string, fast float64) {
	mark := t.speed.Mark
	f.Mark, f.Assumed = &mark, t.speed.Assumed
	x, known := f.Firing.DeviationFrom(mark)
	if known {
		x -= fast
	}
	f.Deviation = x
	switch {
	case f.Unfit != "":
		f.Reason = f.Unfit
	case doubt != "":
		f.Reason = doubt
	case f.Hangs(mark):
		f.Reason = "it stayed open"
		t.hung = append(t.hung, i)
	case !known:
		f.Reason = "its closing does not follow its opening by a time that can be measured"
	default:
		f.Judged, f.Reason = true, ""
		t.counted = append(t.counted, i)
		t.x = append(t.x, x)
		t.onsets = append(t.onsets, onsetErrorOf(f.Firing))
	}
}

// buzzes tells whether the slow-speed escapement was heard in most of the firings
// that count.
func (j *judging) buzzes(t *trial) bool {
	heard := 0
	for _, i := range t.counted {
		if j.check.Firings[i].Buzz.Heard {
			heard++
		}
	}
	return 2*heard > len(t.counted)
}
