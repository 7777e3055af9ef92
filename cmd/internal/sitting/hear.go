package sitting

import (
	"context"
	"encoding/hex"
	"fmt"
	"io"
	"path/filepath"

	"earshot/dsp"
	"earshot/dsp/clip"
	"earshot/report"
	"earshot/shutter"
	"earshot/shutter/hear"
	"earshot/shutter/hear/recording"
)

// Heard is what was heard in one clip.
type Heard struct {
	path  string
	Facts report.Clip
	hear.Heard
}

// endsAlike is the hint for a clip that may be of another kind of shutter than told.
var endsAlike = report.Warning{Code: "ends-alike",
	Message: "openings and closings sound alike, as the two curtains of a focal-plane shutter do: if it is one, say --shutter focal-plane"}

// Hear hears the clip at path, the n-th of its lens, for a kind of shutter. notes gets a line if
// decoding takes long.
func Hear(ctx context.Context, path string, n int, kind shutter.Kind, notes io.Writer) (Heard, error) {
	c, err := clip.OpenContext(ctx, path, notes)
	if err != nil {
		return Heard{}, err
	}
	defer c.Close()
	all, err := hear.Clip(ctx, c, hear.Options{Kind: kind, Clip: n})
	if err != nil {
		return Heard{}, err
	}
	facts, err := FactsOf(path, c, all.Hearing)
	if err != nil {
		return Heard{}, err
	}
	if err := c.Unchanged(); err != nil {
		return Heard{}, err
	}
	facts.Sound = soundOf(all.Hearing, all.Quality)
	all.Hearing = nil // of many clips it is much
	if why := all.Nothing; why != nil && len(all.Firings) == 0 {
		facts.Warnings = append(facts.Warnings, report.Warning{Code: why.Code, Message: why.Message})
	}
	if all.Alike && kind == shutter.Leaf {
		facts.Warnings = append(facts.Warnings, endsAlike)
	}
	return Heard{path, facts.WithFindings(), all}, nil
}

// Listen opens the clip at path and hears what is in it. The clip is left open, for
// places to be read again.
func Listen(ctx context.Context, path string, notes io.Writer) (*clip.Clip, *dsp.Hearing, error) {
	c, err := clip.OpenContext(ctx, path, notes)
	if err != nil {
		return nil, nil, err
	}
	h, err := dsp.Listen(recording.Until(ctx, c))
	if err != nil {
		c.Close()
		return nil, nil, err
	}
	return c, h, nil
}

// FactsOf is what a clip is as a file, and what is doubtful about that.
func FactsOf(path string, c *clip.Clip, h *dsp.Hearing) (report.Clip, error) {
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
