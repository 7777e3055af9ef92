package dsp

import "io"

// Format says how a clip's samples are laid out.
type Format struct {
	Rate     int // frames a second, Hz
	Channels int // samples in a frame, interleaved
}

// Source is a clip that can be read once from end to end and, where it must be
// looked at again, at any place.
//
// Samples are float64, full scale is ±1, channels are interleaved. A Source
// never delivers NaN or Inf.
type Source interface {
	Format() Format

	// ReadFrames fills dst, whose length is a multiple of Channels, and returns
	// the number of frames read. At the end of the clip it returns 0, io.EOF.
	// Frames read before an error come with a nil error; the error follows at
	// the next call.
	ReadFrames(dst []float64) (int, error)

	// ReadFramesAt reads the frames from frame on, without moving what
	// ReadFrames reads next. Fewer than asked for means the clip ends there.
	ReadFramesAt(dst []float64, frame int64) (int, error)
}

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
