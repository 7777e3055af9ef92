package main

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"

	"earshot/dsp/wavfile"
	"earshot/shutter"
)

// yardstick is another way to find onsets, to compare this program with. It knows nothing of
// shutters.
type yardstick struct {
	name   string
	onsets func(clip *wavfile.Reader, path string) ([]float64, error) // s, ascending
}

// ownName is what this program is called beside the yardsticks.
const ownName = "earshot"

// methods are the names of all that are set side by side.
func methods() []string { return []string{ownName, aubioName, thresholdName} }

// yardsticks are those that this machine has.
func yardsticks() []yardstick {
	all := []yardstick{{thresholdName, thresholdOnsets}}
	if a, ok := findAubio(); ok {
		all = append(all, yardstick{aubioName, a.onsets})
	}
	return all
}

// besideClips is how many clips of each condition the yardsticks hear: one for each way of
// winding, since they take most of the time of a run.
const besideClips = 3

// compare sets this program and every yardstick side by side.
func compare(outcomes []*outcome, with []yardstick) error {
	return each(outcomes, func(o *outcome) error {
		if o.clip >= besideClips || len(o.truth.Firings) == 0 {
			return nil
		}
		return o.compare(with)
	})
}

// compare lets the yardsticks hear the clip from one temporary file.
func (o *outcome) compare(with []yardstick) (err error) {
	dir, err := os.MkdirTemp("", "earshot-accuracy-")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	clip, _, err := o.recording.Clip()
	if err != nil {
		return err
	}
	path := filepath.Join(dir, "clip.wav")
	if err := writeClip(path, clip); err != nil {
		return err
	}
	o.beside = map[string]standing{ownName: ownStanding(o)}
	for _, y := range with {
		heard, err := y.hear(path)
		if err != nil {
			return fmt.Errorf("%s: %w", y.name, err)
		}
		o.beside[y.name] = yardstickStanding(o.truth.Firings, heard)
	}
	return nil
}

func (y yardstick) hear(path string) ([]float64, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	clip, err := wavfile.NewReader(f, info.Size(), path)
	if err != nil {
		return nil, err
	}
	return y.onsets(clip, path)
}

// pairs makes firings of single onsets. Two onsets are a firing if each is the nearest to the
// other. Such a firing is compared with the edge e of the true ones.
func pairs(onsets []float64, e shutter.Edge) []shutter.Firing {
	before := func(i int) float64 { // gap before onset i
		if i < 1 || i >= len(onsets) {
			return math.Inf(1)
		}
		return onsets[i] - onsets[i-1]
	}
	var all []shutter.Firing
	for i := 1; i < len(onsets); i++ {
		if gap := before(i); gap < before(i-1) && gap < before(i+1) {
			all = append(all, shutter.Firing{Open: onsets[i-1], Close: onsets[i], Closed: true, Edge: e})
		}
	}
	return all
}
