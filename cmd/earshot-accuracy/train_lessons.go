package main

import (
	"fmt"

	"earshot/dsp"
	"earshot/dsp/known"
	"earshot/shutter"
	"earshot/shutter/hear/recording"
	whole "earshot/shutter/hear/scene"
)

// lesson is a recording listened to, with its truth. Of the sound it keeps the levels and
// the spectra of sudden sounds, not the samples.
type lesson struct {
	kind, name string
	heard      whole.Recording // told the kind of shutter
	truth      known.Truth
	coded      bool
}

// How far, s, from the strokes of an end the loudest part of its sound may be heard, and
// how far after a codec.
const (
	lessonTolerance      = 0.006
	codedLessonTolerance = 0.015
)

// How much an example counts: one with nothing fired little, since its arcs teach the
// same over and over; one of two curtains in both ways that it may be told in, half each.
const (
	weightFired   = 1
	weightNothing = 0.15
	weightCurtain = 0.5
)

// listenToAll makes all takes and listens to them, on all processors.
func listenToAll(takes []take) ([]*lesson, error) {
	lessons := make([]*lesson, len(takes))
	err := inParallel(len(takes), func(i int) error {
		p, err := takes[i].make()
		if err != nil {
			return fmt.Errorf("%s: %w", takes[i].name, err)
		}
		h, err := dsp.Listen(p.src)
		if err != nil {
			return fmt.Errorf("%s: %w", takes[i].name, err)
		}
		heard := recording.Scene(h, p.told == shutter.FocalPlane)
		levels := h.Levels // so that what else was heard may go
		heard.Levels = &levels
		lessons[i] = &lesson{takes[i].kind, takes[i].name, heard, p.truth, p.coded}
		return nil
	})
	return lessons, err
}

// examples are what the lessons teach.
func examples(lessons []*lesson) (all []*whole.Example) {
	for _, l := range lessons {
		weight := float64(weightFired)
		if len(l.truth.Firings) == 0 {
			weight = weightNothing
		}
		if l.truth.Kind != known.FocalPlane {
			all = append(all, l.example(false, weight))
			continue
		}
		all = append(all, l.example(false, weightCurtain), l.example(true, weightCurtain))
	}
	return all
}

// example is one in which it is told, or not, that the shutter is two curtains. All that
// closed is a firing, be it one that must be heard or not.
func (l *lesson) example(curtains bool, weight float64) *whole.Example {
	x := &whole.Example{Recording: l.heard, Reflex: l.truth.Kind == known.Reflex, Weight: weight}
	x.Curtains = curtains
	for _, f := range l.truth.Firings {
		if f.Closes {
			x.Truth = append(x.Truth, whole.Pair{Open: f.Open.Start, OpenStop: f.Open.Stop, Close: f.Close.Start, CloseStop: f.Close.Stop, Tolerance: l.tolerance()})
		}
	}
	return x
}

func (l *lesson) tolerance() float64 {
	if l.coded {
		return codedLessonTolerance
	}
	return lessonTolerance
}
