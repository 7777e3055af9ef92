package main

import (
	"fmt"

	"earshot/dsp/synth"
)

// conditions is the whole benchmark, as far as this machine has what it takes.
func conditions() []condition {
	var all []condition
	all = append(all, noises()...)
	all = append(all, rooms()...)
	all = append(all, quiets()...)
	all = append(all, demands()...)
	all = append(all, alarms()...)
	if hasFFmpeg() {
		all = append(all, coded()...)
	}
	for _, k := range recordedKinds() {
		if len(k.missing()) == 0 {
			all = append(all, besideRecorded(k)...)
		}
	}
	return all
}

// noises are the plain recording under noise, from a silent room to one in which
// only the clicks themselves are heard.
func noises() []condition {
	var all []condition
	for _, colour := range []synth.Colour{synth.White, synth.Pink, synth.RoomNoise} {
		for _, over := range []float64{40, 30, 24, 18} {
			noise := synth.Noise{Colour: colour, ClickOver: over}
			all = append(all, condition{fmt.Sprintf("%s noise, %g dB", colour, over), core, 6,
				func(r *scene, _ int) { r.Noise = noise }})
		}
	}
	return all
}

// rooms are echo, and winding louder than the shutter.
func rooms() []condition {
	echo := func(rt60 float64) func(*scene, int) {
		return func(r *scene, _ int) { r.Room, r.Noise.ClickOver = &synth.Room{RT60: rt60}, 30 }
	}
	wound := func(w synth.Winding) func(*scene, int) {
		return func(r *scene, _ int) {
			r.Noise.ClickOver = 30
			r.Take.Shutter.Winding, r.Take.Shutter.Loud = w, 6
		}
	}
	return []condition{
		{"echo 0.3 s", core, 6, echo(0.3)},
		{"echo 0.4 s", core, 6, echo(0.4)},
		{"echo 0.5 s", core, 6, echo(0.5)},
		{"ratchet, loud", core, 6, wound(synth.RatchetWinding)},
		{"single stroke, loud", core, 6, wound(synth.StrokeWinding)},
		{"no winding", core, 6, wound(synth.NoWinding)},
	}
}

// quiets hold no firing.
func quiets() []condition {
	noise := func(colour synth.Colour) func(*scene, int) {
		return func(r *scene, _ int) { r.Noise.Colour = colour }
	}
	return []condition{
		{"silence", quiet, stillClips, noise("")},
		{"white noise alone", quiet, stillClips, noise(synth.White)},
		{"pink noise alone", quiet, stillClips, noise(synth.Pink)},
		{"room noise alone", quiet, stillClips, noise(synth.RoomNoise)},
		{"lone knocks", quiet, stillClips, hearing(synth.Knock, 0, 4)},
		{"winding alone, ratchet", quiet, stillClips, cranking(synth.RatchetWinding)},
		{"winding alone, single stroke", quiet, stillClips, cranking(synth.StrokeWinding)},
	}
}

// hearing adds a noisemaker, at a level in dB against the click, every so many s;
// 0 for between firings only.
func hearing(kind synth.Noisemaker, level, every float64) func(*scene, int) {
	return func(r *scene, _ int) {
		r.Take.Distractors = append(r.Take.Distractors, synth.Distractor{Kind: kind, Level: level, Every: every})
	}
}

// cranking winds the shutter over and over.
func cranking(w synth.Winding) func(*scene, int) {
	return func(r *scene, _ int) {
		r.Take.Shutter.Winding = w
		r.Take.Distractors = []synth.Distractor{{Kind: synth.Cranking, Every: 3}}
	}
}
