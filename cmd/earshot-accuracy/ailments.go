package main

import (
	"math/rand/v2"

	"earshot/dsp/synth"
	"earshot/shutter/judge"
)

// ailment is one thing wrong with shutters, at grades that a bench worker would call
// clear; or nothing, for healthy ones.
type ailment struct {
	symptom  judge.SymptomName // by which it is to be named; "": healthy
	grade    string
	shutters int
	firings  int  // at each speed
	held     bool // to the target
	fault    func(rnd *rand.Rand) synth.Fault
	concerns func(s *synth.Shutter) bool // nil: every shutter can have it
}

// between draws evenly.
func between(rnd *rand.Rand, lo, hi float64) float64 { return lo + (hi-lo)*rnd.Float64() }

// slowest are the settings at which a slow fault shows first.
var slowest = []string{"1", "1/2"}

// ailments are all that are heard: the healthy first.
func ailments() []ailment {
	graded := func(symptom synth.Symptom, lo, hi, share float64, marks ...string) func(*rand.Rand) synth.Fault {
		return func(rnd *rand.Rand) synth.Fault {
			return synth.Fault{Symptom: symptom, Grade: between(rnd, lo, hi), Share: share, Marks: marks}
		}
	}
	buzzes := func(lo, hi float64) func(*synth.Shutter) bool {
		return func(s *synth.Shutter) bool { return s.BeatRate > 0 && s.BuzzLevel >= lo && s.BuzzLevel < hi }
	}
	const some, more, third = 40, 60, 0.3
	return []ailment{
		{"", "scatter 0.004 to 0.02 stop, speeds uneven by 0.05 (standard deviations)", 200, 3, true, nil, nil},
		{judge.HangsOpen, "one firing in three at 1 and 1/2", some, 3, true, graded(synth.HangsOpen, 0, 0, third, slowest...), nil},
		{judge.ClosesEarly, "by 1.3 to 2.5 stops, one firing in three at 1 and 1/2", some, 3, true, graded(synth.ClosesEarly, 1.3, 2.5, third, slowest...), nil},
		{judge.NeedsExercise, "the first firing 0.8 to 1.2 stops slow, five firings a speed", some, 5, true, graded(synth.NeedsExercise, 0.8, 1.2, 0), nil},
		{judge.Erratic, "standard deviation 0.4 to 0.6 stop at 1/4 and 1/8, five firings a speed", some, 5, true, graded(synth.Erratic, 0.4, 0.6, 0, "1/4", "1/8"), nil},
		{judge.Hesitates, "for 0.1 to 0.2 s in one firing in three, the buzz 20 to 30 dB under the click", more, 3, true, graded(synth.Hesitates, 0.1, 0.2, third), buzzes(-30, 0)},
		{judge.Hesitates, "the same, the buzz 30 to 35 dB under the click", more, 3, false, graded(synth.Hesitates, 0.1, 0.2, third), buzzes(-60, -30)},
		{judge.LazyBlades, "one movement in three firings 8 to 12 dB weaker and 2.3 to 3 times as long", more, 3, true, graded(synth.LazyBlades, 8, 12, third), nil},
		{judge.LazyBlades, "open again 10 to 30 ms after closing, one firing in three", more, 3, true, graded(synth.BouncesOpen, 0.01, 0.03, third), nil},
		{judge.LazyBlades, "the same in every firing", some, 3, true, graded(synth.BouncesOpen, 0.01, 0.03, 1), nil},
		{judge.SlowEscapement, "0.6 to 1 stop slow at the speeds with buzz", more, 3, true, graded(synth.SlowEscapement, 0.6, 1, 0), buzzes(-30, 0)},
		{judge.UnevenSteps, "one speed 0.5 to 0.8 stop off, either way", more, 3, true, unevenly, nil},
	}
}

// unevenly sets one speed off, either way.
func unevenly(rnd *rand.Rand) synth.Fault {
	settings := synth.Modern()[:6]
	grade := between(rnd, 0.5, 0.8)
	if rnd.IntN(2) == 0 {
		grade = -grade
	}
	return synth.Fault{Symptom: synth.UnevenSteps, Grade: grade, Marks: []string{settings[rnd.IntN(len(settings))].Label}}
}

// recording fires the n-th shutter with the ailment through 1 to 1/30 in an ordinary
// room: one in four sits in a reflex body, echo lasts 0.25 to 0.45 s, and the click
// stands 30 to 40 dB over the noise.
func (a ailment) recording(seed uint64, n int) synth.Recording {
	rnd := rand.New(rand.NewPCG(seed, uint64(n)))
	kind := synth.Leaf
	if n%4 == 3 {
		kind = synth.Reflex
	}
	s := synth.Draw(rnd.Uint64(), kind)
	for a.concerns != nil && !a.concerns(s) {
		s = synth.Draw(rnd.Uint64(), kind)
	}
	if a.fault != nil {
		s.Faults = []synth.Fault{a.fault(rnd)}
	}
	return synth.Recording{
		Seed:  rnd.Uint64(),
		Take:  synth.Take{Shutter: s, Settings: synth.Fire(synth.Modern()[:6], a.firings)},
		Room:  &synth.Room{RT60: between(rnd, 0.25, 0.45)},
		Noise: synth.Noise{Colour: synth.RoomNoise, ClickOver: between(rnd, 30, 40)},
		Phone: synth.Phone{Rate: []int{48000, 44100}[n%2], Bits: 16},
	}
}
