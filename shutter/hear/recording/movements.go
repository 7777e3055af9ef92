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

// Part is one sudden rise in a movement: align.Part, its time in s.
type Part struct{ At, Level, Odds float64 }

// Movements are like sounds, each of some parts: align.Movements in s.
type Movements struct {
	Parts       []Part
	Start, Stop Times
	Lead        float64 // s by which the start comes before the end stop; 0 where they are one sound

	clip *Clip
	of   *align.Movements
}

// Movements looks again at like movements, whose loudest parts begin at the times. The
// soonest of them comes a time, after, s, behind the loudest part of another movement, and
// the soonest other one a time, next, behind one of them; +Inf where nothing is known of that.
func (c *Clip) Movements(ctx context.Context, loudest []float64, after, next float64) (*Movements, error) {
	at := make([]float64, len(loudest))
	for i, t := range loudest {
		at[i] = c.h.Samples(t)
	}
	of, err := align.LocateMovements(until{c.src, ctx}, c.h.Channel, at, c.h.Samples(after), c.h.Samples(next))
	if err != nil {
		return nil, err
	}
	m := &Movements{clip: c, of: of}
	for _, p := range of.Parts {
		m.Parts = append(m.Parts, Part{c.h.Seconds(p.At), p.Level, p.Odds})
	}
	return m, nil
}

// Time times two of the parts.
func (m *Movements) Time(start, stop int) {
	m.of.Time(start, stop)
	m.Start, m.Stop, m.Lead = m.clip.times(m.of.Start), m.clip.times(m.of.Stop), m.clip.h.Seconds(m.of.Lead)
}

// Hides is how far below the loudest part, dB, a part at a time is not heard, s as in Parts.
func (m *Movements) Hides(at float64) float64 {
	if m.of == nil {
		return 0
	}
	return m.of.Hides(m.clip.h.Samples(at))
}

// Loudest is the index of the loudest part.
func (m *Movements) Loudest() int { return m.of.Loudest() }

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
