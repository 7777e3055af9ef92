package main

// results are the tallies of a run.
type results struct {
	conditions []*tally
	core       *tally      // all of that group together
	whole      *tally      // all conditions together, but for those heard as what they are not
	speeds     []*tally    // the same by marked speed, slowest first
	generators []*measured // none: not measured
}

func newResults(chosen []condition, outcomes []*outcome) *results {
	r := &results{core: newTally("all together", core), whole: newTally("", "")}
	of := map[string]*tally{}
	for _, c := range chosen {
		of[c.name] = newTally(c.name, c.group)
		r.conditions = append(r.conditions, of[c.name])
	}
	for _, o := range outcomes {
		of[o.condition.name].addClip(o)
		if o.condition.group != quiet && !o.recording.misheard() {
			r.whole.addClip(o)
		}
		if o.condition.group == core {
			r.core.addClip(o)
			r.addSpeeds(o)
		}
	}
	return r
}

// addSpeeds adds what concerns each marked speed of one clip.
func (r *results) addSpeeds(o *outcome) {
	for i, f := range o.of {
		c := &r.speed(o.truth.Firings[i].Label).counts[len(windows())-1]
		c.references++
		if f >= 0 {
			c.right++
		}
	}
	for _, x := range o.timings() {
		r.speed(o.truth.Firings[x.firing].Label).addTiming(x)
	}
	for _, m := range o.means() {
		r.speed(m.label).addMean(m)
	}
}

// speed is the tally of one marked speed, made when it is first asked for.
func (r *results) speed(label string) *tally {
	for _, t := range r.speeds {
		if t.name == label {
			return t
		}
	}
	t := newTally(label, core)
	r.speeds = append(r.speeds, t)
	return t
}

// of returns the tallies of the conditions of one group.
func (r *results) of(g group) []*tally {
	var some []*tally
	for _, t := range r.conditions {
		if t.group == g {
			some = append(some, t)
		}
	}
	return some
}
