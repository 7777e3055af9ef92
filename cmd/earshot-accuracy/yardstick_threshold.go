package main

import (
	"errors"
	"io"
	"math"
	"slices"

	"earshot/dsp"
	"earshot/dsp/wavfile"
)

// The plain threshold hears frames of 0.5 ms, with which it timed better than with 1
// or 2 ms, and is deaf for 12 ms after each in which it heard something, as long as
// aubioonset is.
const (
	thresholdName  = "threshold"
	thresholdFrame = 0.0005
	thresholdDeaf  = 0.012
)

// thresholdOnsets are where the energy first passes the geometric mean of its median
// over the clip and its maximum: halfway between them in dB.
func thresholdOnsets(clip *wavfile.Reader, _ string) ([]float64, error) {
	rate := float64(clip.Format().Rate)
	n := int(math.Round(thresholdFrame * rate))
	e, err := energies(clip, n)
	if err != nil || len(e) == 0 {
		return nil, err
	}
	least := halfway(e)
	var onsets []float64
	last := math.Inf(-1)
	for i, v := range e {
		if v <= least {
			continue
		}
		t := float64(i*n) / rate
		if t-last > thresholdDeaf {
			onsets = append(onsets, t)
		}
		last = t
	}
	return onsets, nil
}

// halfway is the geometric mean of the median and the maximum of energies, neither
// taken for less than one step of 16-bit samples has.
func halfway(e []float64) float64 {
	const step = 1.0 / (1 << 30)
	sorted := slices.Sorted(slices.Values(e))
	return math.Sqrt(max(quantile(sorted, 0.5), step) * max(sorted[len(sorted)-1], step))
}

// energies is the mean square of each n frames, all channels together. Samples are
// differenced first, so that rumble does not drown the clicks.
func energies(src dsp.Source, n int) ([]float64, error) {
	channels := src.Format().Channels
	frame, before := make([]float64, n*channels), make([]float64, channels)
	var all []float64
	for {
		got, err := src.ReadFrames(frame)
		if errors.Is(err, io.EOF) {
			return all, nil
		}
		if err != nil {
			return nil, err
		}
		sum := 0.0
		for i, v := range frame[:got*channels] {
			d := v - before[i%channels]
			before[i%channels] = v
			sum += d * d
		}
		all = append(all, sum/float64(n))
	}
}
