package impact

import (
	"math"

	"earshot/dsp/known"
)

// place says where a sound comes from.
type place int

// The places of sounds.
const (
	shutters place = iota // the shutter that is told of
	table                 // what else happens at it, and things on the table
	operator              // who fires it, and what the other hand holds
	wall                  // across the room
	places
)

// scene is what sounds before it is recorded: a track for each place.
type scene struct {
	dice
	rate   float64
	clock  float64 // s of the recorder's clock in a true second
	tracks [places][]float64
	truth  known.Truth
	marked []float64 // times of sounds whose level is that of the clip, where nothing is fired
	floor  float64   // level of the noise
	end    float64   // true s of a clip in which nothing is fired
	spare  []float64 // room for a sound that is being made
}

// sample returns the sample of a true time.
func (s *scene) sample(at float64) int { return int(math.Round(at * s.clock * s.rate)) }

// shown returns a true time as the recording shows it.
func (s *scene) shown(at float64) float64 { return float64(s.sample(at)) / s.rate }

// add lays a sound on a track from a true time on, times a factor.
func (s *scene) add(on place, at float64, sound []float64, factor float64) float64 {
	from := s.sample(at)
	t := s.tracks[on]
	if need := from + len(sound) - len(t); need > 0 {
		t = append(t, make([]float64, need)...)
	}
	for i, v := range sound {
		t[from+i] += factor * v
	}
	s.tracks[on] = t
	return float64(from) / s.rate
}

// strike hits a body at a true time, with a contact of so many s, and returns when the
// recording shows it.
func (s *scene) strike(on place, b body, at, level, contact float64) float64 {
	force := hertz(contact*s.about(0.06), s.rate)
	sound := b.touched(s.dice, 0.12).ring(s.spare, force, s.rate)
	s.spare = sound
	return s.add(on, at, sound, amplitude(level)/loudness(sound, s.rate))
}

// rub slides over a body between two true times; the level is that of all of it.
func (s *scene) rub(on place, b body, from, to, level float64, envelope func(float64) float64) {
	if to <= from {
		return
	}
	force := s.friction(to-from, s.rate, envelope)
	sound := b.ring(s.spare, force, s.rate)
	s.spare = sound
	s.add(on, from, sound, amplitude(level)/max(rms(sound[:len(force)]), 1e-9))
}

// other notes a sound that is not of a firing, between two true times.
func (s *scene) other(kind string, from, to float64) {
	s.truth.Others = append(s.truth.Others, known.Other{Kind: kind, Start: s.shown(from), End: s.shown(to)})
}

// length returns how many samples the tracks hold.
func (s *scene) length() int {
	n := 0
	for _, t := range s.tracks {
		n = max(n, len(t))
	}
	return n
}
