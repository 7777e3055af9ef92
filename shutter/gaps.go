package shutter

// markGaps makes unfit the firings in which samples were lost: between the ends
// time may be missing, an end that borders a gap may have begun inside it, and one
// that is not heard within the longest span of the clip may lie there.
func (r *room) markGaps(firings []Firing, longest float64) {
	const border = sameSound
	for i := range firings {
		f := &firings[i]
		for _, g := range r.h.Gaps {
			start, end := r.h.Seconds(float64(g.Start)), r.h.Seconds(float64(g.End))
			switch {
			case end <= f.Open-border:
			case f.Closed && start < f.Close:
				f.Unfit = "samples were lost inside"
			case !f.Closed && start < f.Open+longest+hangsAfter:
				f.Unfit = "samples were lost in which it may have closed"
			}
		}
	}
}
