package wavfile

import (
	"errors"
	"fmt"
	"io"
	"math"

	"github.com/go-audio/audio"
	"github.com/go-audio/wav"

	"earshot/dsp"
)

// Writer writes 16-bit PCM WAV as it goes.
type Writer struct {
	enc    *wav.Encoder
	buf    audio.IntBuffer
	bytes  int64 // of samples, so far
	format dsp.Format
}

// maxDataBytes keeps the sizes in the header, which count 36 bytes more, within 32 bits.
const maxDataBytes = 1<<32 - 1 - 36

// NewWriter starts a WAV file at the start of w. Close it to complete the file;
// w stays the caller's to close.
func NewWriter(w io.WriteSeeker, f dsp.Format) (*Writer, error) {
	if f.Rate < MinRate || f.Rate > MaxRate || f.Channels < 1 || f.Channels > maxChannels {
		return nil, fmt.Errorf("cannot write WAV of %d channels at %d Hz, allowed 1 to %d channels at %d to %d Hz", f.Channels, f.Rate, maxChannels, MinRate, MaxRate)
	}
	// The encoder sets aside a minute of samples at the rate it is made with, far
	// more than a block needs; the true rate is read when the header is written.
	enc := wav.NewEncoder(w, 1, 16, f.Channels, tagPCM)
	enc.SampleRate = f.Rate
	out := &Writer{enc: enc, format: f}
	out.buf.Format = &audio.Format{NumChannels: f.Channels, SampleRate: f.Rate}
	return out, out.flush()
}

// WriteFrames appends the frames of src, rounded to the nearest of 65536 steps;
// what exceeds full scale is clipped. A sample that is not a number is an error.
// It panics unless the length of src is a multiple of the channels.
func (w *Writer) WriteFrames(src []float64) error {
	if len(src)%w.format.Channels != 0 {
		panic(fmt.Sprintf("wavfile: %d samples for frames of %d channels", len(src), w.format.Channels))
	}
	if w.bytes += 2 * int64(len(src)); w.bytes > maxDataBytes {
		return fmt.Errorf("a WAV file holds 4 GiB at most: write shorter clips")
	}
	for len(src) > 0 {
		n := min(len(src), blockBytes/2/w.format.Channels*w.format.Channels)
		w.buf.Data = w.buf.Data[:0]
		for _, x := range src[:n] {
			if math.IsNaN(x) {
				return fmt.Errorf("cannot write a sample that is not a number")
			}
			w.buf.Data = append(w.buf.Data, int(math.Round(min(max(x*(1<<15), math.MinInt16), math.MaxInt16))))
		}
		if err := w.flush(); err != nil {
			return err
		}
		src = src[n:]
	}
	return nil
}

func (w *Writer) flush() error {
	if err := w.enc.Write(&w.buf); err != nil {
		return fmt.Errorf("write WAV: %w", err)
	}
	return nil
}

// Close writes the lengths into the header.
func (w *Writer) Close() error {
	if err := w.enc.Close(); err != nil {
		return fmt.Errorf("complete WAV: %w", err)
	}
	return nil
}

// Copy writes what is left of src to w as 16-bit PCM, from the format to the end. It
// returns the error of src or of w.
func Copy(w io.WriteSeeker, src dsp.Source) error {
	const frames = 1 << 14
	out, err := NewWriter(w, src.Format())
	if err != nil {
		return err
	}
	channels := src.Format().Channels
	block := make([]float64, frames*channels)
	for {
		n, err := src.ReadFrames(block)
		if errors.Is(err, io.EOF) {
			return out.Close()
		}
		if err != nil {
			return err
		}
		if err := out.WriteFrames(block[:n*channels]); err != nil {
			return err
		}
	}
}
