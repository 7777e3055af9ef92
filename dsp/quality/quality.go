package quality

import (
	"fmt"
	"math"

	"earshot/dsp"
	"earshot/dsp/internal/num"
)

// Quality is how a recording was made, as far as its sound shows. Levels are in dBFS, on the
// channel that was listened to unless said otherwise. NaN stands for what is not known.
type Quality struct {
	Noise *Spectrum // of the quietest stretches; nil where all is muted or too short
	Loud  *Spectrum // of the loudest sounds; nil where nothing stands out

	Floor     float64 // the noise above LowestHeard
	Click     float64 // the median of the sounds that count, above LowestHeard
	Bandwidth float64 // Hz: nothing is heard beyond
	Hum       Hum
	Muted     Muted
	Recovery  float64 // by how much the noise rises again after loud sounds, dB; 0 where it does not
	Channels  []Channel

	rate int // Hz
}

// LowestHeard is the frequency in Hz above which a clip is listened to.
const LowestHeard = 500

// Measure measures the clip that h was heard in; src is read again at a bounded number
// of places. It returns the error of src, wrapped.
func Measure(h *dsp.Hearing, src dsp.Source) (*Quality, error) {
	q := &Quality{rate: h.Rate, Floor: math.NaN(), Click: math.NaN(), Bandwidth: float64(h.Rate) / 2,
		Muted: muted(h), Recovery: recovery(h)}
	loud := loudest(h)
	if err := q.takeNoise(h, src); err != nil {
		return nil, fmt.Errorf("measuring the noise: %w", err)
	}
	if err := q.takeLoud(h, src, loud); err != nil {
		return nil, fmt.Errorf("measuring the loudest sounds: %w", err)
	}
	return q, nil
}

// takeNoise measures what the quiet shows.
func (q *Quality) takeNoise(h *dsp.Hearing, src dsp.Source) error {
	n := noiseSegment(h.Rate)
	mean := averager{rate: h.Rate, segment: n}
	for _, at := range quietest(h, n) {
		frames, err := readAt(src, at, n)
		if err != nil {
			return err
		}
		mean.add(channelOf(frames, h.Channel, h.Channels))
	}
	if q.Noise = mean.spectrum(); q.Noise != nil {
		q.Floor = num.Decibel(q.Noise.power(LowestHeard, q.Bandwidth))
		q.Hum = findHum(q.Noise)
	}
	return nil
}

// takeLoud measures what loud sounds show, which begin at the samples in at.
func (q *Quality) takeLoud(h *dsp.Hearing, src dsp.Source, at []int64) error {
	mean := averager{rate: h.Rate, segment: loudSegment(h.Rate)}
	sides := newSides(h.Format)
	for _, onset := range at {
		frames, err := readAt(src, onset-int64(h.Rate/500), 2*mean.segment)
		if err != nil {
			return err
		}
		mean.add(channelOf(frames, h.Channel, h.Channels))
		sides.add(frames)
	}
	q.Channels = sides.channels()
	if q.Loud = mean.spectrum(); q.Loud != nil {
		q.Bandwidth = cutoff(q.Loud)
	}
	return q.HearClicks(h, src, at)
}

// readAt reads n frames from a frame on, fewer where the clip begins or ends.
func readAt(src dsp.Source, frame int64, n int) ([]float64, error) {
	channels := src.Format().Channels
	dst := make([]float64, n*channels)
	got, err := src.ReadFramesAt(dst, max(0, frame))
	return dst[:got*channels], err
}

// channelOf is a copy of one channel of interleaved frames.
func channelOf(frames []float64, channel, channels int) []float64 {
	x := make([]float64, 0, len(frames)/channels)
	for i := channel; i < len(frames); i += channels {
		x = append(x, frames[i])
	}
	return x
}
