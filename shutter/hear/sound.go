package hear

import (
	"math"
	"slices"

	"earshot/dsp"
	"earshot/shutter/hear/recording"
	"earshot/shutter/hear/timing"
)

// fading is by how many dB the sounds of a clip have died away by the time that their decay
// is taken, 0 where that is not known. From then on they die away as in any room.
type fading float64

// fadingOf is what three of four sounds at least have lost, of those after which nothing
// else is heard while their decay is taken.
func fadingOf(all []sound) fading {
	const alone, enough = 0.045, 3 // s: decay is taken to 30 ms after the onset, and what is heard lasts; sounds
	var lost []float64
	for i := range all {
		if all[i].rise > prominent && (i+1 == len(all) || all[i+1].at-all[i].at > alone) {
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

// ringingStart is by how much, in dB, what is heard while a movement rings may be weaker
// to count for nothing; this allowance falls to nothing over the time.
const ringingStart = 20

// sound is one movement heard: a transient, or several that belong together.
// Times are in s.
type sound struct {
	at         float64 // onset of its loudest part
	level      float64 // of that, dBFS
	rise       float64 // of its loudest part over what came before its first, dB
	prominence float64 // of its loudest part over what the sounds before it explain, dB
	decay      float64 // of its loudest part, dB

	// The spectrum is that of the loudest part that has one, over what came before
	// the first, nil where none stands out enough; second is that of another part
	// nearly as loud, nil where there is none.
	spectrum, second *dsp.Spectrum
}

// sounds gathers transients into sounds, each no longer than a movement, s.
func sounds(clip *recording.Clip, transients []dsp.Transient, movement float64) []sound {
	all := make([]sound, 0, len(transients)/2) // a sound mostly has several parts
	for i := range transients {
		s := soundOf(clip, &transients[i])
		if n := len(all); n > 0 && s.at-all[n-1].at <= movement {
			all[n-1].join(s)
			continue
		}
		all = append(all, s)
	}
	return all
}

func soundOf(clip *recording.Clip, t *dsp.Transient) sound {
	return sound{at: clip.Onset(t), level: t.Level, rise: t.Rise, decay: t.Decay, spectrum: t.Spectrum}
}

// join makes part a part of s.
func (s *sound) join(part sound) {
	louder, softer := part, *s
	if part.level <= s.level {
		louder, softer = *s, part
	} else {
		louder.rise = max(part.rise, s.rise+part.level-s.level)
		if s.spectrum != nil && part.spectrum != nil {
			louder.spectrum = &dsp.Spectrum{Bands: part.spectrum.Bands, Noise: s.spectrum.Noise}
		}
	}
	switch {
	case softer.spectrum == nil:
	case louder.spectrum == nil:
		louder.spectrum, louder.second = softer.spectrum, softer.second
	case softer.level > louder.level-comparablePart:
		louder.second = softer.spectrum
	}
	*s = louder
}

// comparablePart is how much weaker a part may be, in dB, to be taken for the
// loudest another time.
const comparablePart = 10

// measureProminence fills in how far each sound stands out over those before it.
func measureProminence(all []sound) []sound {
	const reach = 0.2 // s: by then 60 dB are gone
	fade := fadingOf(all)
	for i := range all {
		s := &all[i]
		s.prominence = s.rise
		for j := i - 1; j >= 0 && s.at-all[j].at < reach; j-- {
			s.prominence = math.Min(s.prominence, s.level-all[j].level+fade.after(s.at-all[j].at))
		}
	}
	return all
}

// prominenceOdds is the evidence, as a logarithm of odds, that a sound is neither noise nor
// part of an earlier sound.
func (s *sound) prominenceOdds() float64 { return within((s.prominence-prominent)/3, -4, 3) }

// prominent is from how many dB of prominence on a sound stands out.
const prominent = 9

// past is the level of a sound that comes a time after another, less what the
// ringing of that one excuses.
func past(level, after float64) float64 {
	return level - ringingStart*math.Max(0, 1-after/timing.Ringing)
}
