package main

import (
	"context"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"earshot/cmd/internal/fault"
	"earshot/cmd/internal/sitting"
	"earshot/dsp"
	"earshot/dsp/clock"
	"earshot/report"
	"earshot/report/write"
)

const clockLong = `clock finds how far the clock of a recorder is off, from a recording of a clock that
ticks evenly: a quartz clock on the wall, five minutes of it. --every says how often it
ticks. Other sounds do no harm, nor ticks missed or heard twice; tick and tock may differ.

It changes no verdict unless a recorder is badly off: 100 ppm are 0.00014 stop. It is for
those who want to know.`

func newClock(a app) *cobra.Command {
	var (
		every  time.Duration
		asJSON bool
	)
	c := &cobra.Command{
		Use:     "clock CLIP",
		Short:   "Find how far a recorder's clock is off, from a ticking clock",
		Long:    clockLong,
		Example: "  earshot clock quartz.wav --every 1s\n  earshot check corvane-105.wav --clock-ppm +23.4±0.5",
		Args:    arguments(one("clip", "name one recording of a ticking clock", "timed")),
	}
	c.Flags().DurationVar(&every, "every", time.Second, "from tick to tick, as in 1s or 200ms")
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	c.RunE = func(c *cobra.Command, args []string) error {
		if every < 50*time.Millisecond || every > time.Minute {
			return usageError{c, fmt.Errorf("--every %s: from 50ms to 1m", every)}
		}
		found, err := a.timeTicks(c.Context(), args[0], every.Seconds())
		switch {
		case err != nil:
			return err
		case asJSON:
			return write.ClockJSON(a.stdout, found, version)
		}
		return write.Clock(a.stdout, found)
	}
	return c
}

// timeTicks listens to a clip and times what ticks in it every so many s.
func (a app) timeTicks(ctx context.Context, path string, every float64) (report.Clock, error) {
	c, h, err := sitting.Listen(ctx, path, a.stderr)
	if err != nil {
		return report.Clock{}, err
	}
	defer c.Close()
	facts, err := sitting.FactsOf(path, c, h)
	if err != nil {
		return report.Clock{}, err
	}
	rate, err := clock.Of(onsetsOf(h), every)
	if err != nil {
		return report.Clock{}, fault.Refused("no-ticks", path, err, "record a clock for five minutes from near by, in a quiet room, and say with --every how often it ticks")
	}
	return report.Clock{
		File: facts.File, SHA256: facts.SHA256, Every: every, Error: rate.PPM, U95: rate.U95,
		Ticks: rate.Ticks, Missed: rate.Missed, Others: rate.Others, Scatter: rate.Scatter, Uneven: rate.Uneven,
	}, nil
}

// onsetsOf are the onsets in s of the sounds that stand out enough to be picked.
func onsetsOf(h *dsp.Hearing) []float64 {
	var onsets []float64
	for _, t := range h.Transients {
		if t.Spectrum != nil {
			onsets = append(onsets, h.Seconds(t.Onset))
		}
	}
	return onsets
}
