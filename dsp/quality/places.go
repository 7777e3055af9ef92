package quality

import (
	"cmp"
	"math"
	"slices"

	"earshot/dsp"
	"earshot/dsp/internal/num"
)

const (
	mostQuiet = 8  // stretches of quiet that are read again
	mostLoud  = 12 // loud sounds that are

	standsOut  = 12.0 // dB over the noise from which a sound is loud
	unlikeRest = 6.0  // dB over the other stretches at which one is no quiet
)

// place is a stretch of the clip and how loud it is.
type place struct {
	at    int64 // sample
	level float64
}

// quietest returns quiet stretches of n samples: of each of some equal parts of the clip the
// quietest stretch without a muted sample. Parts that are never quiet are left out.
func quietest(h *dsp.Hearing, n int) []int64 {
	long := (n + h.Track.Step - 1) / h.Track.Step
	windows := h.Track.Len() - 1 - long // the last frame may be cut short
	if windows <= 0 {
		return nil
	}
	silent := newGapWalk(h)
	var places []place
	parts := min(mostQuiet, max(1, h.Track.Len()/long))
	for i := range parts {
		p := place{level: math.Inf(1)}
		for k := windows * i / parts; k < windows*(i+1)/parts; k += max(1, long/4) {
			at := int64(k) * int64(h.Track.Step)
			if level := h.Track.Loudest(k, k+long); level < p.level && !silent.touches(at, at+int64(n)) {
				p = place{at, level}
			}
		}
		if !math.IsInf(p.level, 1) {
			places = append(places, p)
		}
	}
	return likeMost(places)
}

// likeMost leaves out the places louder than most.
func likeMost(places []place) []int64 {
	if len(places) == 0 {
		return nil
	}
	levels := make([]float64, len(places))
	for i, p := range places {
		levels[i] = p.level
	}
	usual := num.Nth(levels, (len(levels)-1)/2) + unlikeRest
	var at []int64
	for _, p := range places {
		if p.level <= usual {
			at = append(at, p.at)
		}
	}
	return at
}

// gapWalk asks for gaps at places that come in order.
type gapWalk struct{ left []dsp.Gap }

func newGapWalk(h *dsp.Hearing) *gapWalk { return &gapWalk{h.Gaps} }

// touches tells whether a gap lies between two samples.
func (w *gapWalk) touches(from, to int64) bool {
	for len(w.left) > 0 && w.left[0].End <= from {
		w.left = w.left[1:]
	}
	return len(w.left) > 0 && w.left[0].Start < to
}

// loudest returns the onset, in samples, of the loudest sound of each of some equal parts of
// the clip, if it stands out of the noise.
func loudest(h *dsp.Hearing) []int64 {
	best := make([]place, mostLoud)
	for i := range best {
		best[i].level = math.Inf(-1)
	}
	for _, t := range h.Transients {
		part := &best[min(mostLoud-1, int(t.Onset*mostLoud/float64(h.Frames)))]
		if t.Level > part.level && t.Level > h.Noise+standsOut {
			*part = place{int64(t.Onset), t.Level}
		}
	}
	best = slices.DeleteFunc(best, func(p place) bool { return math.IsInf(p.level, -1) })
	slices.SortFunc(best, func(a, b place) int { return cmp.Compare(a.at, b.at) })
	at := make([]int64, len(best))
	for i, p := range best {
		at[i] = p.at
	}
	return at
}
