package recording

import (
	"context"

	"earshot/dsp/align"
)

// Times are those of like parts of like movements, s. U is the standard uncertainty of
// each against the others, Bias one that all have in common.
type Times struct {
	At, U []float64
	Bias  float64
}

// Movements are like sounds, each of a start and an end stop: align.Movements in s.
type Movements struct {
	Start, Stop Times
	Lead        float64 // s by which the start comes before the end stop; 0 where they are one sound
	Drop, Depth float64 // dB: how far the start lies below the loudest part, and would still have been heard

	clip *Clip
	of   *align.Movements
}

// Movements looks again at like movements, whose loudest parts begin at the times. The
// soonest of them comes a time, after, s, behind the loudest part of another movement; +Inf
// where nothing is known of that.
func (c *Clip) Movements(ctx context.Context, loudest []float64, after float64) (*Movements, error) {
	at := make([]float64, len(loudest))
	for i, t := range loudest {
		at[i] = c.h.Samples(t)
	}
	m, err := align.LocateMovements(until{c.src, ctx}, c.h.Channel, at, c.h.Samples(after))
	if err != nil {
		return nil, err
	}
	return &Movements{
		Start: c.times(m.Start), Stop: c.times(m.Stop),
		Lead: c.h.Seconds(m.Lead), Drop: m.Drop, Depth: m.Depth, clip: c, of: m,
	}, nil
}

func (c *Clip) times(t align.Times) Times {
	out := Times{Bias: c.h.Seconds(t.Bias), At: make([]float64, len(t.At)), U: make([]float64, len(t.U))}
	for i := range t.At {
		out.At[i] = c.h.Seconds(t.At[i])
	}
	for i := range t.U {
		out.U[i] = c.h.Seconds(t.U[i])
	}
	return out
}

// RisesAgain tells whether power rises again as long after the start as in the other
// movement.
func (m *Movements) RisesAgain(other *Movements) bool {
	return m.of != nil && other.of != nil && m.of.RisesAgain(other.of)
}

// Template is what such a movement is like in the mean, until a time after its start, s.
func (m *Movements) Template(after float64) Template {
	return Template{m.of.Template(m.clip.h.Samples(after))}
}

// Template is what one kind of movement is like in the mean.
type Template struct{ of align.Template }

// Interval is the time of the first of two movements and of the second, s. U is the
// standard uncertainty of the time between, and Bias the part of it that all found by the
// same two movements have in common.
type Interval struct{ First, Second, U, Bias float64 }

// Overlaid are two movements that make one sound.
type Overlaid struct{ Start, Stop Interval }

// OverlaidMost is the longest, s, that one movement comes after the other in one sound.
const OverlaidMost = align.OverlaidMost

// Overlay looks in the sound whose loudest part begins at a time for the one movement
// followed closely by the other; ok is false where they are not found.
func (c *Clip) Overlay(ctx context.Context, first, second Template, loudest float64) (o Overlaid, ok bool, err error) {
	found, ok, err := align.Overlay(until{c.src, ctx}, c.h.Channel, first.of, second.of, c.h.Samples(loudest))
	return Overlaid{c.interval(found.Start), c.interval(found.Stop)}, ok, err
}

func (c *Clip) interval(i align.Interval) Interval {
	return Interval{c.h.Seconds(i.First), c.h.Seconds(i.Second), c.h.Seconds(i.U), c.h.Seconds(i.Bias)}
}
