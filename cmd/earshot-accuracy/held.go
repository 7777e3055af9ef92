package main

import (
	"io"

	"earshot/dsp"
	"earshot/dsp/synth"
)

// held is a clip of one channel held in memory, for which no sound is rendered twice.
type held struct {
	format dsp.Format
	x      []float64
	next   int64
}

func holding(c *synth.Clip) *held { return &held{format: c.Format(), x: c.Samples()[0]} }

func (h *held) Format() dsp.Format { return h.format }

func (h *held) ReadFrames(dst []float64) (int, error) {
	n, err := h.ReadFramesAt(dst, h.next)
	h.next += int64(n)
	if n == 0 && len(dst) > 0 {
		return 0, io.EOF
	}
	return n, err
}

func (h *held) ReadFramesAt(dst []float64, frame int64) (int, error) {
	if frame < 0 || frame >= int64(len(h.x)) {
		return 0, nil
	}
	return copy(dst, h.x[frame:]), nil
}
