package shutter

// markGaps makes unfit the firings in which samples were lost: between the ends
// time may be missing, and an end that borders a gap may have begun inside it.
func (r *room) markGaps(firings []Firing) {
	const border = sameSound
	for i := range firings {
		f := &firings[i]
		for _, g := range r.h.Gaps {
			start, end := r.h.Seconds(float64(g.Start)), r.h.Seconds(float64(g.End))
			if f.Closed && start < f.Close && end > f.Open-border {
				f.Unfit = "samples were lost inside"
			}
		}
	}
}
