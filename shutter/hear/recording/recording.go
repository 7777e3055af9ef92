// Package recording is one clip as hearing and timing see it, in s and dBFS. It is their
// border with dsp, which counts samples: here and nowhere else the one is turned into the
// other.
package recording

import (
	"context"
	"math"

	"earshot/dsp"
	"earshot/dsp/describe"
	"earshot/shutter/hear/scene"
)

// Clip is one clip, with what was heard in it. The zero Clip is empty.
type Clip struct {
	h    dsp.Hearing // without the transients, of which a clip may have many
	src  dsp.Source
	step float64
}

// Of is the clip src, in which h was heard.
func Of(h *dsp.Hearing, src dsp.Source) Clip {
	c := Clip{h: *h, src: src, step: h.Seconds(float64(h.Track.Step))}
	c.h.Transients = nil
	return c
}

// Scene is what of a hearing explains a clip; curtains says that its shutter is two of them.
func Scene(h *dsp.Hearing, curtains bool) scene.Recording {
	r := scene.Recording{Levels: &h.Levels, Step: h.Seconds(float64(h.Levels.Step)), Curtains: curtains}
	for i := range h.Transients {
		if t := &h.Transients[i]; t.Spectrum != nil {
			r.Spectra = append(r.Spectra, scene.Spectral{At: h.Seconds(t.Onset), Level: t.Level, Spectrum: t.Spectrum})
		}
	}
	return r
}

// Duration is the length of the clip, s.
func (c *Clip) Duration() float64 { return c.h.Duration() }

// Onset is when a transient of the clip begins, s from its start.
func (c *Clip) Onset(t *dsp.Transient) float64 { return c.h.Seconds(t.Onset) }

// Lost is where samples were lost or muted, each from and to, s, in time order.
func (c *Clip) Lost() (lost [][2]float64) {
	for _, g := range c.h.Gaps {
		lost = append(lost, [2]float64{c.h.Seconds(float64(g.Start)), c.h.Seconds(float64(g.End))})
	}
	return lost
}

// Track is the level of the sound throughout, in frames.
func (c *Clip) Track() *dsp.Track { return &c.h.Track }

// Step is how long a frame of the track is, s.
func (c *Clip) Step() float64 { return c.step }

// Between is the range of frames of the track that lie wholly between two times.
func (c *Clip) Between(from, to float64) (first, end int) {
	n := float64(c.h.Track.Len())
	frame := func(x float64) int { return int(math.Min(math.Max(x, 0), n)) }
	return frame(math.Ceil(from / c.step)), frame(math.Floor(to / c.step))
}

// Level is the level, dBFS, that a part of the frames between two times stay under; −Inf
// where there are none.
func (c *Clip) Level(from, to, part float64) float64 {
	first, end := c.Between(from, to)
	if first >= end {
		return math.Inf(-1)
	}
	return c.h.Track.PeakQuantile(first, end, part)
}

// Foreground listens again to what stands out of the noise from one time to another.
func (c *Clip) Foreground(ctx context.Context, from, to float64) (*describe.Foreground, error) {
	return describe.ListenToForeground(&c.h, until{c.src, ctx}, c.h.Samples(from), c.h.Samples(to))
}

// Strike is how a movement struck: describe.Strike, its times in s.
type Strike struct {
	Level, AgainLevel  float64 // dBFS
	Lead, After, Again float64 // s
}

// Strike listens again to the movement whose onset is at a time, no further than a time
// before and behind it.
func (c *Clip) Strike(ctx context.Context, at, before, behind float64) (Strike, error) {
	s, err := describe.ListenToStrike(until{c.src, ctx}, c.h.Channel, c.h.Samples(at), c.h.Samples(before), c.h.Samples(behind))
	return Strike{Level: s.Level, AgainLevel: s.AgainLevel, Lead: c.h.Seconds(s.Lead), After: c.h.Seconds(s.After), Again: c.h.Seconds(s.Again)}, err
}

// Frames are the samples nearest before times.
func (c *Clip) Frames(times []float64) (frames []int64) {
	for _, t := range times {
		frames = append(frames, int64(c.h.Samples(t)))
	}
	return frames
}

// Until is src until ctx is done: then it reads no more and returns the error of ctx.
func Until(ctx context.Context, src dsp.Source) dsp.Source { return until{src, ctx} }

// until is a source that ends with the context's error once that is done.
type until struct {
	dsp.Source
	ctx context.Context
}

func (s until) ReadFrames(dst []float64) (int, error) {
	if err := s.ctx.Err(); err != nil {
		return 0, err
	}
	return s.Source.ReadFrames(dst)
}

func (s until) ReadFramesAt(dst []float64, frame int64) (int, error) {
	if err := s.ctx.Err(); err != nil {
		return 0, err
	}
	return s.Source.ReadFramesAt(dst, frame)
}
