package main

import (
	"context"
	"encoding/hex"
	"fmt"
	"os"
	"path/filepath"

	"earshot/dsp"
	"earshot/dsp/clip"
	"earshot/report"
	"earshot/shutter"
	"earshot/shutter/hear"
)

// heard is what was heard in one clip.
type heard struct {
	path  string
	facts report.Clip
	hear.Heard
}

// endsAlike is the hint for a clip that may be of another kind of shutter than told.
var endsAlike = report.Warning{Code: "ends-alike",
	Message: "openings and closings sound alike, as the two curtains of a focal-plane shutter do: if it is one, say --shutter focal-plane"}

// hearClip listens to the clip at path, the n-th of its lens, whose shutter is of a kind.
func hearClip(ctx context.Context, path string, n int, kind shutter.Kind) (heard, error) {
	c, err := clip.OpenContext(ctx, path, os.Stderr)
	if err != nil {
		return heard{}, err
	}
	defer c.Close()
	all, err := hear.Clip(ctx, c, hear.Options{Kind: kind, Clip: n})
	if err != nil {
		return heard{}, err
	}
	facts, err := factsOf(path, c, all.Hearing)
	if err != nil {
		return heard{}, err
	}
	if err := c.Unchanged(); err != nil {
		return heard{}, err
	}
	facts.Sound = soundOf(all.Hearing, all.Quality)
	all.Hearing = nil // of many clips it is much
	if why := all.Nothing; why != nil && len(all.Firings) == 0 {
		facts.Warnings = append(facts.Warnings, report.Warning{Code: why.Code, Message: why.Message})
	}
	if all.Alike && kind == shutter.Leaf {
		facts.Warnings = append(facts.Warnings, endsAlike)
	}
	return heard{path, facts.WithFindings(), all}, nil
}

// listen opens the clip at path and hears what is in it. The clip is left open, for
// places to be read again.
func listen(ctx context.Context, path string) (*clip.Clip, *dsp.Hearing, error) {
	c, err := clip.OpenContext(ctx, path, os.Stderr)
	if err != nil {
		return nil, nil, err
	}
	h, err := dsp.Listen(interruptible{c, ctx})
	if err != nil {
		c.Close()
		return nil, nil, err
	}
	return c, h, nil
}

// factsOf is what a clip is as a file, and what is doubtful about that.
func factsOf(path string, c *clip.Clip, h *dsp.Hearing) (report.Clip, error) {
	sum, err := c.SHA256()
	if err != nil {
		return report.Clip{}, err
	}
	facts := report.Clip{
		File: filepath.Base(path), SHA256: hex.EncodeToString(sum[:]), Format: formatWords(c.Encoding(), c.Format()),
		Rate: h.Rate, Channels: h.Channels, Channel: h.Channel, Duration: h.Duration(),
	}
	for _, w := range c.Warnings() {
		facts.Warnings = append(facts.Warnings, report.Warning{Code: string(w.Code), Message: w.Message})
	}
	return facts, nil
}

func formatWords(encoding string, f dsp.Format) string {
	channels := fmt.Sprintf("%d channels", f.Channels)
	if f.Channels == 1 {
		channels = "1 channel"
	}
	return fmt.Sprintf("%s, %g kHz, %s", encoding, float64(f.Rate)/1000, channels)
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
