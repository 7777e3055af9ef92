package hear

import (
	"earshot/shutter"
	"earshot/shutter/hear/timing"
)

// unheard is where a clip tells nothing, in s from its start.
type unheard struct {
	lost [][2]float64 // from and to: samples were lost or muted
	end  float64      // and from here on there are none
}

func (r *recordedClip) unheard() unheard { return unheard{lost: r.clip.Lost(), end: r.clip.Duration()} }

// mark makes unfit the firings that run into it: those that do not close before the
// end, though they may have within the longest span of the clip, and those in which
// samples were lost. Between the ends time may be missing, an end that borders a gap
// may have begun inside it, and one that is not heard may lie there.
func (u unheard) mark(firings []shutter.Firing, longest float64) {
	const border = timing.SameSound
	for i := range firings {
		f := &firings[i]
		if !f.Closed && u.end-f.Open < longest+shutter.HangsAfter {
			f.Unfit = "the clip ends before it closes"
		}
		for _, gap := range u.lost {
			start, end := gap[0], gap[1]
			switch {
			case end <= f.Open-border:
			case f.Closed && start < f.Close:
				f.Unfit = "samples were lost inside"
			case !f.Closed && start < f.Open+longest+shutter.HangsAfter:
				f.Unfit = "samples were lost in which it may have closed"
			}
		}
	}
}
