package synth

import (
	"io"

	"earshot/dsp"
)

// Looped is a [dsp.Source] that plays the same samples over and over.
type Looped struct {
	format  dsp.Format
	samples []float64
	frames  int64
	pos     int64
}

// Loop repeats interleaved samples to a length in frames. It keeps samples.
func Loop(format dsp.Format, samples []float64, frames int64) *Looped {
	if format.Channels < 1 || len(samples) < format.Channels {
		panic("synth: nothing to loop")
	}
	return &Looped{format: format, samples: samples[:len(samples)/format.Channels*format.Channels], frames: frames}
}

// Format returns how the samples are laid out.
func (l *Looped) Format() dsp.Format { return l.format }

// ReadFrames reads on, as [dsp.Source] says.
func (l *Looped) ReadFrames(dst []float64) (int, error) {
	n, err := l.ReadFramesAt(dst, l.pos)
	l.pos += int64(n)
	if n == 0 && len(dst) > 0 {
		return 0, io.EOF
	}
	return n, err
}

// ReadFramesAt reads from a frame on, as [dsp.Source] says.
func (l *Looped) ReadFramesAt(dst []float64, frame int64) (int, error) {
	ch := int64(l.format.Channels)
	n := min(int64(len(dst))/ch, l.frames-frame)
	if frame < 0 || n <= 0 {
		return 0, nil
	}
	at := frame * ch % int64(len(l.samples))
	for done := int64(0); done < n*ch; {
		got := int64(copy(dst[done:n*ch], l.samples[at:]))
		done += got
		at = 0
	}
	return int(n), nil
}
