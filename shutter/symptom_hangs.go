package shutter

// hangsOpen finds openings that nothing closed although the clip went on, or that what
// did closed far too late. One whose speed is not known, or in doubt, and that hung at
// whichever of them, is a symptom of the shutter as a whole. Where the settings told do
// not fit what was heard, no firing is judged, and neither is one that hung: what was
// heard may be another lens, or no firing at all.
func (j *judging) hangsOpen() {
	placed := map[int]bool{}
	for _, t := range j.trials {
		for _, i := range t.hung {
			placed[i] = true
		}
		if len(t.hung) > 0 {
			j.add(t, HangsOpen, t.hung, firingsText(t.hung)+" opened and stayed open")
		}
	}
	var loose []int
	for i, f := range j.check.Firings {
		switch {
		case f.Unfit != "" || placed[i] || !j.hangsAnywhere(f.Firing):
		case len(j.laying.Misfits) > 0:
			j.unjudgedHung = append(j.unjudgedHung, i)
		default:
			loose = append(loose, i)
		}
	}
	if len(loose) > 0 {
		why := firingsText(loose) + " opened and stayed open, at a speed that is not sure"
		j.check.Symptoms = append(j.check.Symptoms, j.symptom(HangsOpen, loose, why))
	}
}

// hangsAnywhere tells whether a firing stayed open even if it was made at the slowest
// of the speeds.
func (j *judging) hangsAnywhere(f Firing) bool {
	return !f.Closed || len(j.trials) > 0 && f.hangs(j.trials[0].speed.Mark)
}
