package dsp

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
