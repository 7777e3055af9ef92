package dsp

import (
	"math"
	"slices"

	"earshot/dsp/internal/num"
)

// Track is the level of a clip over time: for every frame of Step samples the
// mean level and that of its loudest hop, in half decibels to spend two bytes a
// frame. Frame i covers the samples from i·Step to (i+1)·Step.
type Track struct {
	Step       int
	mean, peak []uint8
}

// Len is the number of frames.
func (t *Track) Len() int { return len(t.mean) }

// Mean is the mean level of frame i in dBFS, to half a decibel.
func (t *Track) Mean(i int) float64 { return fromHalfDecibels(t.mean[i]) }

// Peak is the level of the loudest hop of frame i in dBFS, to half a decibel.
func (t *Track) Peak(i int) float64 { return fromHalfDecibels(t.peak[i]) }

func (t *Track) add(mean, peak float64) {
	t.mean = append(t.mean, halfDecibels(num.Level(mean)))
	t.peak = append(t.peak, halfDecibels(num.Level(peak)))
}

// Loudest is the largest Peak of the frames from first to before end, of which
// there is at least one.
func (t *Track) Loudest(first, end int) float64 {
	return fromHalfDecibels(slices.Max(t.peak[first:end]))
}

// PeakQuantile is the Peak that a part p, from 0 to below 1, of the frames from
// first to before end stays under.
func (t *Track) PeakQuantile(first, end int, p float64) float64 {
	return quantile(t.peak[first:end], p)
}

// MeanQuantile is the Mean that a part p, from 0 to below 1, of the frames from
// first to before end stays under, as if each half decibel were filled evenly.
func (t *Track) MeanQuantile(first, end int, p float64) float64 {
	var count [256]uint32
	for _, q := range t.mean[first:end] {
		count[q]++
	}
	left := p * float64(end-first)
	for q, n := range count {
		if left < float64(n) {
			return trackBottom + (float64(q)-0.5+left/float64(n))/2
		}
		left -= float64(n)
	}
	return num.Level(0)
}

// quantile is the level that a part p of levels is quieter than, dBFS.
func quantile(levels []uint8, p float64) float64 {
	var count [256]uint32
	for _, q := range levels {
		count[q]++
	}
	left := int(p * float64(len(levels)))
	for q, n := range count {
		if left -= int(n); left < 0 {
			return fromHalfDecibels(uint8(q))
		}
	}
	return num.Level(0)
}

const trackBottom = -117.5 // dBFS; 255 half decibels above it is +10 dBFS

func halfDecibels(db float64) uint8 {
	return uint8(math.Round(min(max((db-trackBottom)*2, 0), 255)))
}

func fromHalfDecibels(q uint8) float64 { return trackBottom + float64(q)/2 }
