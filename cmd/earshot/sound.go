package main

import (
	"context"
	"fmt"
	"os"
	"slices"

	"github.com/spf13/cobra"

	"earshot/cmd/internal/files"
	"earshot/cmd/internal/sitting"
	"earshot/dsp/quality"
	"earshot/report"
	"earshot/report/chart/heard"
	"earshot/report/chart/paper"
	"earshot/report/write"
	"earshot/shutter"
)

func newSound(a app) *cobra.Command {
	var (
		o    soundOptions
		kind kindFlag
	)
	c := &cobra.Command{
		Use:   "sound CLIP",
		Short: "Say whether a recording is fit to be timed",
		Long: `sound says of one recording how fit it is to be timed: its level, clipping, noise,
bandwidth, what noise gates and gain controls did to it, gaps, channels and hum. Each
is one line; where it is better recorded otherwise, with what that limits and what to
do. check says the same in its record.`,
		Example: "  earshot sound corvane-105.wav\n  earshot sound corvane-105.wav --chart corvane-105-sound.png",
		Args:    arguments(one("clip", "name one recording", "looked at")),
	}
	s := c.Flags()
	kind.define(c)
	s.BoolVar(&o.json, "json", false, "print the findings as JSON")
	s.StringVar(&o.chart, "chart", "", "draw the spectrum of noise and clicks into this file (.png or .svg)")
	c.RunE = func(c *cobra.Command, args []string) (err error) {
		o.clip = args[0]
		if o.kind, err = kind.read(); err != nil {
			return misuse(c, err)
		}
		if o.chartFormat, err = pictureFormat(c, "chart", paper.PNG, paper.SVG); err != nil {
			return misuse(c, err)
		}
		if err := files.RefuseClobber(o.chart, []string{o.clip}); err != nil {
			return err
		}
		return a.sound(c.Context(), o)
	}
	return c
}

// soundOptions are what sound was asked for.
type soundOptions struct {
	clip, chart string
	kind        shutter.Kind
	chartFormat paper.Format
	json        bool
}

// sound hears the clip and says how fit it is.
func (a app) sound(ctx context.Context, o soundOptions) error {
	h, err := sitting.Hear(ctx, o.clip, 0, o.kind, a.stderr)
	if err != nil {
		return err
	}
	if o.chart != "" {
		if err := writeSpectrum(ctx, o, h); err != nil {
			return err
		}
	}
	h.Facts.Warnings = slices.DeleteFunc(h.Facts.Warnings, saidByFindings)
	a.warnOf(h.Facts)
	if o.json {
		return write.SoundJSON(a.stdout, h.Facts, version)
	}
	return write.Sound(a.stdout, h.Facts, len(h.Firings))
}

// saidByFindings tells whether a warning is what a finding says too.
func saidByFindings(w report.Warning) bool {
	return w.Code == "digital-silence" || w.Code == "nothing-stands-out"
}

// linesAnOctave is how finely a spectrum is drawn.
const linesAnOctave = 24

func writeSpectrum(ctx context.Context, o soundOptions, h sitting.Heard) error {
	return files.Write(ctx, o.chart, func(f *os.File) error { return heard.WriteSpectrum(f, spectrumOf(h), o.chartFormat) })
}

// spectrumOf is what the picture of a clip's sound shows.
func spectrumOf(h sitting.Heard) heard.Spectrum {
	s := heard.Spectrum{
		Title: h.Facts.File, About: fmt.Sprintf("%s, %.1f s. %s", h.Facts.Format, h.Facts.Duration, h.Facts.Sound.Fitness()),
		Heard: quality.LowestHeard, Noise: levelsOf(h.Quality.Noise), Loud: levelsOf(h.Quality.Loud), Mains: h.Quality.Hum.Frequency,
	}
	if h.Quality.Bandwidth < float64(h.Facts.Rate)/2 {
		s.Bandwidth = h.Quality.Bandwidth
	}
	for _, f := range h.Facts.Sound.Faults() {
		s.Faults = append(s.Faults, f.Text)
	}
	return s
}

func levelsOf(s *quality.Spectrum) []heard.Level {
	if s == nil {
		return nil
	}
	var levels []heard.Level
	for _, l := range s.Levels(linesAnOctave) {
		levels = append(levels, heard.Level(l))
	}
	return levels
}
