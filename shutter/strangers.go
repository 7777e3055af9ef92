package shutter

// stranger is the evidence against a set from one sound as like its ends that
// belongs to no firing.
const stranger = 2.5

// unexplained is the evidence against a set from the sounds that are as like its
// openings or closings as most of these are, and yet belong to no firing. Where a
// reflex was heard, its blades have closed on each release, and have opened again
// once between two firings.
func (v *voice) unexplained(set []pair) float64 {
	known := map[int]bool{}
	for i := range set {
		known[set[i].open], known[set[i].close] = true, true
		if release, weight := v.release(set[i].open); weight > 0 {
			known[release] = true
		}
	}
	open, close := v.open.most(), v.close.most()
	strangers, reopened := 0, 0
	for i := range v.r.sounds {
		if known[i] || v.besides[i] || v.r.sounds[i].surprise() <= 0 {
			continue
		}
		switch {
		case v.open.distance(i) <= open:
			reopened++
		case v.close.distance(i) <= close:
			strangers++
		}
	}
	if v.lead > 0 {
		reopened = max(0, reopened-len(set)-1)
	}
	return stranger * float64(strangers+reopened)
}
