package dsp

import "io"

// Held is a [Source] of frames that are held in memory.
type Held struct {
	Layout Format
	Frames []float64 // interleaved, full scale ±1
	next   int       // sample that ReadFrames reads next
}

// Format says how the frames are laid out.
func (h *Held) Format() Format { return h.Layout }

// ReadFrames reads on; see [Source].
func (h *Held) ReadFrames(dst []float64) (int, error) {
	n := copy(dst, h.Frames[h.next:])
	h.next += n
	if n == 0 && len(dst) > 0 {
		return 0, io.EOF
	}
	return n / h.Layout.Channels, nil
}

// ReadFramesAt reads from a frame on, nothing from behind the end; see [Source].
func (h *Held) ReadFramesAt(dst []float64, frame int64) (int, error) {
	from := min(int(frame)*h.Layout.Channels, len(h.Frames))
	return copy(dst, h.Frames[from:]) / h.Layout.Channels, nil
}
