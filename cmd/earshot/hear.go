package main

import (
	"context"
	"encoding/hex"
	"fmt"
	"math"
	"os"
	"path/filepath"

	"earshot/dsp"
	"earshot/dsp/clip"
	"earshot/report"
	"earshot/shutter"
)

// heard is what was heard in one clip.
type heard struct {
	path  string
	facts report.Clip
	shutter.Heard
}

// endsAlike is the hint for a clip that may be of another kind of shutter than told.
var endsAlike = report.Warning{Code: "ends-alike",
	Message: "openings and closings sound alike, as the two curtains of a focal-plane shutter do: if it is one, say --shutter focal-plane"}

// hear listens to the clip at path, the n-th of its lens, whose shutter is of a kind.
func hear(ctx context.Context, path string, n int, kind shutter.Kind) (heard, error) {
	c, err := clip.OpenContext(ctx, path, os.Stderr)
	if err != nil {
		return heard{}, err
	}
	defer c.Close()
	h, err := dsp.Listen(interruptible{c, ctx})
	if err != nil {
		return heard{}, err
	}
	sum, err := c.SHA256()
	if err != nil {
		return heard{}, err
	}
	facts := report.Clip{
		File: filepath.Base(path), SHA256: hex.EncodeToString(sum[:]), Format: formatWords(c.Encoding(), c.Format()),
		Rate: h.Rate, Channels: h.Channels, Channel: h.Channel, Duration: h.Duration(), Sound: soundOf(h),
	}
	for _, w := range c.Warnings() {
		facts.Warnings = append(facts.Warnings, report.Warning{Code: string(w.Code), Message: w.Message})
	}
	why, nothing := shutter.WhyNothing(h) // before Hear, which lets go of what was heard
	all, err := shutter.Hear(h, c, n, kind)
	if nothing && len(all.Firings) == 0 {
		facts.Warnings = append(facts.Warnings, report.Warning{Code: why.Code, Message: why.Message})
	}
	if all.Alike && kind == shutter.Leaf {
		facts.Warnings = append(facts.Warnings, endsAlike)
	}
	return heard{path, facts, all}, err
}

func formatWords(encoding string, f dsp.Format) string {
	channels := fmt.Sprintf("%d channels", f.Channels)
	if f.Channels == 1 {
		channels = "1 channel"
	}
	return fmt.Sprintf("%s, %g kHz, %s", encoding, float64(f.Rate)/1000, channels)
}

func soundOf(h *dsp.Hearing) report.Sound {
	peak := 20 * math.Log10(h.Peak) // −Inf, written as null, for silence
	noise := h.Noise                // a copy, lest it keep all of h in memory
	s := report.Sound{Transients: len(h.Transients), Noise: &noise, Peak: &peak, Clipped: h.Clipped}
	for _, g := range h.Gaps {
		s.Lost += h.Seconds(float64(g.End - g.Start))
	}
	return s
}

// interruptible is a source that ends with the context's error once that is done.
type interruptible struct {
	dsp.Source
	ctx context.Context
}

func (s interruptible) ReadFrames(dst []float64) (int, error) {
	if err := s.ctx.Err(); err != nil {
		return 0, err
	}
	return s.Source.ReadFrames(dst)
}
