// Package clip opens any recording as a dsp.Source.
//
// What a file is shows in its first bytes, never in its name. WAV is read by
// package wavfile; what phones write is turned into WAV by the program earshot-decode,
// in a process of its own, and kept in a temporary file while the clip is open; other
// sound formats are named and refused. Only regular files are opened: a folder, a pipe
// or a device is refused before it is touched, since opening a pipe can wait for ever and
// a clip must be read again at any place.
//
// Every refusal is an *Error: one line for a person, a stable code for a program.
package clip

import (
	"context"
	"crypto/sha256"
	"errors"
	"hash"
	"io"
	"os"
	"slices"
	"time"

	"earshot/dsp"
	"earshot/dsp/wavfile"
)

// Warning is a doubt about a clip that was read all the same: a stable code and
// a sentence.
type Warning = wavfile.Warning

// Clip is an open recording. It is not safe for concurrent use.
type Clip struct {
	path     string
	file     *os.File
	size     int64 // bytes
	modified time.Time
	sound    *wavfile.Reader
	decoded  *decoded  // nil for WAV
	sum      hash.Hash // of the bytes that ReadFrames has passed over
	whole    bool      // it has passed over all
}

// Open opens the recording at path. Close it after use.
func Open(path string) (*Clip, error) {
	return OpenContext(context.Background(), path, os.Stderr)
}

// OpenContext is Open for a clip that may have to be decoded first: that ends with the
// context's error once the context is done, and notes gets a line where it takes long.
func OpenContext(ctx context.Context, path string, notes io.Writer) (*Clip, error) {
	f, info, err := openRegular(path)
	if err != nil {
		return nil, err
	}
	c := &Clip{path: path, file: f, size: info.Size(), modified: info.ModTime(), sum: sha256.New()}
	if err := c.recognise(ctx, notes); err != nil {
		c.Close()
		return nil, err
	}
	return c, nil
}

// recognise finds the reader for the clip's format.
func (c *Clip) recognise(ctx context.Context, notes io.Writer) (err error) {
	head := make([]byte, min(c.size, SniffBytes))
	if _, err := io.ReadFull(io.NewSectionReader(c.file, 0, c.size), head); err != nil {
		return readError(c.path, err)
	}
	switch f := Sniff(head); {
	case f == formatWAV:
		if c.sound, err = wavfile.NewReader(c.file, c.size, c.path); err == nil {
			c.sound.CopyTo(c.sum)
		}
	case f.Demuxer() == "":
		return refuseFormat(c.path, f)
	default:
		c.sound, err = c.decode(ctx, f, notes)
	}
	return fromWAV(err)
}

// Name is the path the clip was opened by.
func (c *Clip) Name() string { return c.path }

// Encoding names the clip's format, as in "WAV, 16-bit PCM" or "AAC in M4A, 128 kbit/s".
func (c *Clip) Encoding() string {
	if c.decoded != nil {
		return c.decoded.Encoding
	}
	return c.sound.Encoding()
}

// Format is the clip's rate and channels.
func (c *Clip) Format() dsp.Format { return c.sound.Format() }

// Frames is the number of frames that the clip really holds.
func (c *Clip) Frames() int64 { return c.sound.Frames() }

// Warnings lists the doubts about the clip; complete once it was read through.
func (c *Clip) Warnings() []Warning {
	list := c.sound.Warnings()
	if c.decoded == nil {
		return list
	}
	list = slices.DeleteFunc(list, func(w Warning) bool { return w.Code == wavfile.StreamedSize }) // as the decoder writes it
	return append(slices.Clone(c.decoded.Warnings), list...)
}

// ReadFrames implements dsp.Source. It panics unless the length of dst is a
// multiple of the channels.
func (c *Clip) ReadFrames(dst []float64) (int, error) {
	n, err := c.sound.ReadFrames(dst)
	if err == io.EOF {
		c.whole = c.decoded == nil
		return n, err
	}
	return n, fromWAV(err)
}

// ReadFramesAt implements dsp.Source. A clip that ends inside dst gives fewer
// frames and no error.
func (c *Clip) ReadFramesAt(dst []float64, frame int64) (int, error) {
	n, err := c.sound.ReadFramesAt(dst, frame)
	return n, fromWAV(err)
}

// SHA256 is the checksum of the file's bytes, whatever they mean. For WAV it comes free
// after ReadFrames has returned io.EOF; else it reads the file once more.
func (c *Clip) SHA256() ([sha256.Size]byte, error) {
	if c.whole {
		return [sha256.Size]byte(c.sum.Sum(nil)), nil
	}
	sum := sha256.New()
	n, err := io.Copy(sum, io.NewSectionReader(c.file, 0, c.size))
	if err == nil && n < c.size {
		err = io.ErrUnexpectedEOF
	}
	if err != nil {
		return [sha256.Size]byte{}, readError(c.path, err)
	}
	return [sha256.Size]byte(sum.Sum(nil)), nil
}

// Unchanged returns an *Error where the file was written to since the clip was opened, as
// far as its length and its time of change tell: what was read of it then is of no one
// recording.
func (c *Clip) Unchanged() error {
	info, err := c.file.Stat()
	if err != nil {
		return readError(c.path, err)
	}
	if info.Size() != c.size || !info.ModTime().Equal(c.modified) {
		return &Error{Code: Changed, File: c.path, Message: "the file was written to while it was read", Hint: "wait until it is copied or recorded to its end, and try again"}
	}
	return nil
}

// Close closes the file, and what was decoded of it is gone.
func (c *Clip) Close() error {
	err := c.file.Close()
	if c.decoded != nil {
		err = errors.Join(err, c.decoded.Close())
	}
	return err
}
