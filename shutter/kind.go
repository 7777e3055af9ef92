package shutter

import (
	"errors"
	"fmt"
	"math"

	"earshot/dsp"
	"earshot/dsp/align"
)

// Kind is how a shutter is built, as far as it changes what is heard of it. It is
// told, not found out.
type Kind string

// The kinds of shutter that can be heard.
const (
	Leaf       Kind = "leaf"        // blades that open and close, each way with a sound of its own
	FocalPlane Kind = "focal-plane" // two curtains that sound alike, timed from stop to stop
)

// ErrKind is for a kind of shutter that is not known.
var ErrKind = errors.New("no such kind of shutter")

// ParseKind reads a kind of shutter. Its error is ErrKind, wrapped.
func ParseKind(s string) (Kind, error) {
	switch k := Kind(s); k {
	case Leaf, FocalPlane:
		return k, nil
	}
	return "", fmt.Errorf("%w: %q; known are %s and %s", ErrKind, s, Leaf, FocalPlane)
}

// sameStop is how long a curtain may go on making new sounds, in s. Its start comes
// 10 to 20 ms before its stop and its bounce 3 to 8 ms after (common practice, no
// source), and the mirror may fall among them: joined to the stop, whichever is the
// loudest now and then would be taken for it.
const sameStop = 0.003

// movement is how long one movement may go on making new sounds, in s.
func (k Kind) movement() float64 {
	if k == FocalPlane {
		return sameStop
	}
	return sameSound
}

// oneSound is how near, in dB, the medians of openings and of closings lie that are
// one sound: over the seeds of the tests two curtains come to 1.2 at most, the
// blades of a leaf shutter to 3.1 at least.
const oneSound = 2

// soundsAlike tells whether the openings of a set sound like its closings, as those
// of two curtains do.
func (r *room) soundsAlike(set []pair) bool {
	if len(set) == 0 {
		return false
	}
	v := r.voice(set)
	return distance(&v.open.centre, &v.close.centre) < oneSound
}

// stopToStop makes firings of two curtains from pairs, given in time order, all ends
// timed as one class: the curtains sound alike, and what the mirror adds to the one
// is not common to both.
func (r *room) stopToStop(src dsp.Source, pairs []pair) ([]Firing, error) {
	var ends []float64
	for i := range pairs {
		ends = append(ends, r.h.Samples(r.sounds[pairs[i].open].at), r.h.Samples(r.sounds[pairs[i].close].at))
	}
	m, err := align.LocateMovements(src, r.h.Channel, ends, math.Inf(1))
	if err != nil {
		return nil, err
	}
	firings := make([]Firing, len(pairs))
	for i := range pairs {
		o, c := 2*i, 2*i+1
		firings[i] = Firing{
			Edge: EdgeStop, Closed: true, Open: r.h.Seconds(m.Stop.At[o]), Close: r.h.Seconds(m.Stop.At[c]), Buzz: r.buzzOf(&pairs[i]),
			U: r.h.Seconds(math.Hypot(math.Hypot(m.Stop.U[o], m.Stop.U[c]), m.Stop.Bias)), Common: r.h.Seconds(m.Stop.Bias),
		}
	}
	return firings, nil
}
