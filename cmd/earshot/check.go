package main

import (
	"context"
	"errors"

	"github.com/spf13/cobra"
)

const checkLong = `check finds the firings of one lens in its clips, judges each speed and prints a
table. Several clips are one lens.

Speeds are told with --speeds in the order fired, as on the dial or in full: 1, 1/30,
30 (for 1/30), 2s, 0.5s; x and a count tells how many firings. Without it a clip's
name may carry its speed in full (corvane-105_1-4s.wav). Without either the nearest
marks are assumed, and only repeatability and faults can be judged.

A focal-plane shutter is told with --shutter focal-plane: its two curtains sound
alike, and are timed from the stop of the one to the stop of the other.

Firings that were heard wrongly are put right by hand: --labels writes those of one
clip as labels, a line each (start, end and label, tabs between), that sound editors
show under the sound; --use-labels judges from them once they are corrected. A label
that begins with a speed settles it; one without length is a firing that never closed.

Whether it heard right shows at a glance with --firings: a picture of the sound of every
firing, opening and closing marked; many firings take several, as FILE, FILE-2 and so on.
--explain 3 says what speaks for firing 3 being one, and --explain 12.5s why none was
heard there; with it --firings draws that alone.`

const checkExample = `  earshot check corvane-105.wav --speeds "1x3 1/2x3 1/4x3 1/8x3 1/15x3 1/30x5" --lens "Corvane 105 mm f/3.5"
  earshot check corvane-105_1s.wav corvane-105_1-2s.wav --chart corvane-105.png --record corvane-105.json
  earshot check corvane-105.wav --use-labels corvane-105.txt
  earshot check corvane-105.wav --firings corvane-105-firings.png
  earshot check corvane-105.wav --explain 12.5s --firings why.png`

func newCheck(a app) *cobra.Command {
	var f checkFlags
	c := &cobra.Command{
		Use:     "check CLIP...",
		Short:   "Judge the speeds of one lens from its clips",
		Long:    checkLong,
		Example: checkExample,
		Args:    arguments(someClips),
	}
	f.define(c)
	c.RunE = func(c *cobra.Command, clips []string) error {
		o, err := f.options(c, clips)
		if err != nil {
			return misuse(c, err)
		}
		return a.check(c.Context(), o)
	}
	return c
}

func someClips(_ *cobra.Command, args []string) error {
	if len(args) == 0 {
		return errors.New("no clip was named: name the recordings of one lens")
	}
	return nil
}

// check checks one lens: it hears its clips, judges and writes.
func (a app) check(ctx context.Context, o checkOptions) error {
	set, err := o.readLabels()
	if err != nil {
		return err
	}
	o.set, o.version, o.notes = set, version, a.stderr
	all, d, missed, err := o.examineHeard(ctx)
	for _, m := range missed {
		a.complain(failureOf(m))
	}
	if err != nil {
		return err
	}
	if err := o.writeFiles(d); err != nil {
		return err
	}
	if err := a.answer(ctx, o, all, d); err != nil {
		return err
	}
	a.warn(d)
	return o.status(d, len(missed))
}
