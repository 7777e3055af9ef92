package clip

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"time"

	"earshot/dsp/wavfile"
)

// decoder is a program of its own, so that what it takes in memory, a crash or a loop in
// it ends with its process. It gets the clip as standard input, writes WAV to standard
// output, and a Report to standard error.
type decoder struct {
	program string
	longest time.Duration // that it may take for a clip
	most    int64         // bytes that it may write
}

// decoderName is what the program is called, beside this one or on PATH.
const decoderName = "earshot-decode"

// What one clip may take, lest a small file fills the disk or never ends. It decodes
// some hundred times faster than it was recorded, and three hours of two channels at
// 48 kHz take as many bytes. The decoder is told MaxDecoded, to refuse what states more.
const (
	maxDecoding = 10 * time.Minute
	MaxDecoded  = 4 << 30
)

// findDecoder looks for the decoder beside this program, and then on PATH.
func findDecoder() (decoder, error) {
	d := decoder{longest: maxDecoding, most: MaxDecoded}
	if self, err := os.Executable(); err == nil {
		if real, err := filepath.EvalSymlinks(self); err == nil {
			self = real
		}
		if d.program, err = exec.LookPath(filepath.Join(filepath.Dir(self), decoderName)); err == nil {
			return d, nil
		}
	}
	var err error
	d.program, err = exec.LookPath(decoderName)
	return d, err
}

// Report is what the decoder says of a clip once it has ended: one line of JSON, the
// last on its standard error.
type Report struct {
	Encoding string    `json:"encoding,omitempty"` // "AAC in M4A, 128 kbit/s"
	Frames   int64     `json:"frames,omitempty"`   // that it has written
	Warnings []Warning `json:"warnings,omitempty"`
	Refusal  *Error    `json:"refusal,omitempty"` // without File; nil where all went well
}

// decoded is a clip as the decoder left it, as WAV.
type decoded struct {
	*scratch
	size int64 // bytes
	Report
}

// decode has the decoder turn the clip into WAV, in a file that only this process sees,
// and returns the reader of that. Notes gets what a person should know while it works.
func (c *Clip) decode(ctx context.Context, f Format, notes io.Writer) (*wavfile.Reader, error) {
	program, err := findDecoder()
	if err != nil {
		return nil, noDecoder(c.path, f, err)
	}
	s, err := newScratch()
	if err != nil {
		return nil, noRoom(c.path, err)
	}
	c.decoded = &decoded{scratch: s} // closed with the clip, whatever comes
	if err := program.run(ctx, c.file, c.decoded, notes); err != nil {
		var e *Error
		if errors.As(err, &e) {
			e.File = c.path
		}
		return nil, err
	}
	r, err := wavfile.NewReader(s, c.decoded.size, c.path)
	if err == nil && r.Frames() != c.decoded.Frames {
		return nil, decoderFailed(c.path, fmt.Sprintf("the decoder reports %d frames and wrote %d", c.decoded.Frames, r.Frames()), nil)
	}
	return r, err
}

// run runs the decoder to its end, or until the context is done or it takes too much.
// Without an error the clip in to is whole.
func (d decoder) run(ctx context.Context, from *os.File, to *decoded, notes io.Writer) error {
	limited, cancel := context.WithTimeout(ctx, d.longest)
	defer cancel()
	cmd := exec.CommandContext(limited, d.program)
	out, said := &bounded{w: to.scratch, left: d.most}, &said{notes: notes}
	cmd.Stdin, cmd.Stdout, cmd.Stderr = from, out, said
	cmd.WaitDelay = time.Second
	err := cmd.Run()
	report, ok := said.report()
	switch {
	case ctx.Err() != nil:
		return ctx.Err()
	case errors.Is(out.err, errTooLong) || limited.Err() != nil:
		return &Error{Code: TooLong, Message: "the recording is too long to be decoded", Hint: "cut it into pieces of an hour", Err: err}
	case out.err != nil:
		return noRoom("", out.err)
	case !ok && interrupted(ctx):
		return ctx.Err()
	case !ok:
		return decoderFailed("", "the decoder ended without a report"+after(err)+said.first(), err)
	case report.Refusal != nil:
		return report.Refusal
	case err != nil:
		return decoderFailed("", "the decoder failed: "+err.Error(), err)
	}
	to.size, to.Report = d.most-out.left, report
	return nil
}

// after is an error to follow other words, if there is one.
func after(err error) string {
	if err == nil {
		return ""
	}
	return ": " + err.Error()
}

// interrupted tells whether the context ends now: a terminal's interruption ends the
// decoder too, and may do so a moment before this program is told.
func interrupted(ctx context.Context) bool {
	select {
	case <-ctx.Done():
		return true
	case <-time.After(100 * time.Millisecond):
		return false
	}
}

var errTooLong = errors.New("too long")

// bounded writes to w as many bytes as are left to write, and keeps the error that
// ended it.
type bounded struct {
	w    io.Writer
	left int64
	err  error
}

func (b *bounded) Write(p []byte) (n int, err error) {
	if int64(len(p)) > b.left {
		b.err = errTooLong
		return 0, b.err
	}
	n, b.err = b.w.Write(p)
	b.left -= int64(n)
	return n, b.err
}
