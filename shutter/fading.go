package shutter

import (
	"math"
	"slices"

	"earshot/dsp"
)

// fading is by how many dB sounds have died away in this room by the time that their
// decay is taken, 0 where that is not known. What comes later dies away as in any room.
type fading float64

// fadingOf is what three of four sounds at least have lost, of those after which nothing
// else is heard while their decay is taken.
func fadingOf(all []sound) fading {
	const alone, enough = 0.045, 3 // s: decay is taken to 30 ms after the onset, and what is heard lasts; sounds
	var lost []float64
	for i := range all {
		if all[i].rise > standing && (i+1 == len(all) || all[i+1].at-all[i].at > alone) {
			lost = append(lost, all[i].decay)
		}
	}
	if len(lost) < enough {
		return 0
	}
	slices.Sort(lost)
	return fading(lost[len(lost)/4])
}

// after is by how many dB a sound has died away after a time in s. The closing of 1/60
// stands out by this, which in a room that echoes for long might be the opening's.
func (f fading) after(t float64) float64 {
	const taken = 0.0225 // s: the middle of the time that decay is taken over
	return math.Max(dsp.Fading*t, float64(f)*math.Min(1, t/taken))
}
