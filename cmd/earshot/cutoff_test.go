package main

import (
	"io"
	"slices"

	"gonum.org/v1/gonum/dsp/fourier"

	"earshot/dsp"
	"earshot/dsp/synth"
)

// held is a clip held in memory, its channels interleaved.
type held struct {
	format dsp.Format
	frames []float64
	pos    int
}

func (h *held) Format() dsp.Format { return h.format }

func (h *held) ReadFrames(dst []float64) (int, error) {
	n := copy(dst, h.frames[h.pos:])
	h.pos += n
	if n == 0 && len(dst) > 0 {
		return 0, io.EOF
	}
	return n / h.format.Channels, nil
}

func (h *held) ReadFramesAt(dst []float64, frame int64) (int, error) {
	return copy(dst, h.frames[frame*int64(h.format.Channels):]) / h.format.Channels, nil
}

// cutOff is a clip without what lies above a frequency, Hz, as a codec leaves it.
func cutOff(c *synth.Clip, hz float64) dsp.Source {
	channels := c.Samples()
	out := &held{format: c.Format(), frames: make([]float64, len(channels)*len(channels[0]))}
	n := 1
	for n < len(channels[0]) {
		n *= 2
	}
	transform := fourier.NewFFT(n)
	for ch, x := range channels {
		bins := transform.Coefficients(nil, append(slices.Clone(x), make([]float64, n-len(x))...))
		clear(bins[int(hz/float64(out.format.Rate)*float64(n)):])
		for i, v := range transform.Sequence(nil, bins)[:len(x)] {
			out.frames[i*len(channels)+ch] = v / float64(n)
		}
	}
	return out
}
