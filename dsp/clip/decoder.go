package clip

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"time"
)

// The decoder is a program of its own, so that what it takes in memory, a crash or a
// loop in it ends with its process. It gets the clip as standard input, writes WAV to
// standard output, and a Report to standard error.

// decoderName is what the program is called, beside this one or on PATH.
const decoderName = "earshot-decode"

// What one clip may take, lest a small file fills the disk or never ends. It decodes
// some hundred times faster than it was recorded.
const (
	maxDecoding = 10 * time.Minute
	maxDecoded  = 4 << 30 // bytes: three hours of two channels at 48 kHz
)

// Report is what the decoder says of a clip once it has ended: one line of JSON, the
// last on its standard error.
type Report struct {
	Encoding string    `json:"encoding,omitempty"` // "AAC in M4A, 128 kbit/s"
	Frames   int64     `json:"frames,omitempty"`   // that it has written
	Warnings []Warning `json:"warnings,omitempty"`
	Refusal  *Error    `json:"refusal,omitempty"` // without File; nil where all went well
}

// decoded is a clip as the decoder left it.
type decoded struct {
	*scratch
	size int64
	Report
}

// decode has the decoder turn the clip into WAV, in a file that only this process sees.
// Notes gets what a person should know while it works.
func (c *Clip) decode(ctx context.Context, f Format, notes io.Writer) (*decoded, error) {
	program, err := findDecoder()
	if err != nil {
		return nil, noDecoder(c.path, f, err)
	}
	s, err := newScratch()
	if err != nil {
		return nil, noRoom(c.path, err)
	}
	d, err := runDecoder(ctx, exec.Command(program), c.file, s, notes)
	if err != nil {
		s.Close()
		var e *Error
		if errors.As(err, &e) {
			e.File = c.path
		}
		return nil, err
	}
	return d, nil
}

// findDecoder looks for the decoder beside this program, and then on PATH.
func findDecoder() (string, error) {
	self, err := os.Executable()
	if err == nil {
		if real, err := filepath.EvalSymlinks(self); err == nil {
			self = real
		}
		beside := filepath.Join(filepath.Dir(self), decoderName)
		if runtime.GOOS == "windows" {
			beside += ".exe"
		}
		if found, err := exec.LookPath(beside); err == nil {
			return found, nil
		}
	}
	return exec.LookPath(decoderName)
}

// runDecoder runs the decoder to its end, or until the context is done or it takes too
// long. What it returns is whole.
func runDecoder(ctx context.Context, program *exec.Cmd, from *os.File, to *scratch, notes io.Writer) (*decoded, error) {
	limited, cancel := context.WithTimeout(ctx, maxDecoding)
	defer cancel()
	cmd := exec.CommandContext(limited, program.Path, program.Args[1:]...)
	out, said := &bounded{w: to}, &said{notes: notes}
	cmd.Stdin, cmd.Stdout, cmd.Stderr = from, out, said
	cmd.WaitDelay = time.Second
	err := cmd.Run()
	switch {
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case errors.Is(out.err, errTooLong) || limited.Err() != nil:
		return nil, &Error{Code: TooLong, Message: "the recording is too long to be decoded", Hint: "cut it into pieces of an hour", Err: err}
	case out.err != nil:
		return nil, noRoom("", out.err)
	}
	report, ok := said.report()
	switch {
	case !ok && interrupted(ctx):
		return nil, ctx.Err()
	case !ok:
		return nil, decoderFailed(fmt.Sprintf("the decoder stopped without a report: %v%s", err, said.first()), err)
	case report.Refusal != nil:
		return nil, report.Refusal
	case err != nil:
		return nil, decoderFailed("the decoder failed: "+err.Error(), err)
	}
	return &decoded{to, out.written, report}, nil
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

// bounded writes to w up to maxDecoded bytes and keeps the error that ended it.
type bounded struct {
	w       io.Writer
	written int64
	err     error
}

func (b *bounded) Write(p []byte) (int, error) {
	if b.written+int64(len(p)) > maxDecoded {
		b.err = errTooLong
		return 0, b.err
	}
	n, err := b.w.Write(p)
	b.written += int64(n)
	b.err = err
	return n, err
}

// said takes up what the decoder says: notes are passed on at once, the last line is
// its report. Of a program gone wrong no more than the start is kept.
type said struct {
	notes io.Writer
	kept  bytes.Buffer // lines that are no notes
	line  []byte       // the line not ended yet
}

const maxSaid = 64 << 10 // bytes

var notePrefix = []byte("note: ")

func (s *said) Write(p []byte) (int, error) {
	for _, part := range bytes.SplitAfter(p, []byte("\n")) {
		if len(s.line)+len(part) < maxSaid {
			s.line = append(s.line, part...)
		}
		if !bytes.HasSuffix(part, []byte("\n")) {
			continue
		}
		if note, ok := bytes.CutPrefix(s.line, notePrefix); ok {
			fmt.Fprintf(s.notes, "earshot: %s", note)
		} else if s.kept.Len()+len(s.line) < 2*maxSaid {
			s.kept.Write(s.line)
		}
		s.line = s.line[:0]
	}
	return len(p), nil
}

func (s *said) report() (Report, bool) {
	lines := bytes.Split(bytes.TrimSpace(s.kept.Bytes()), []byte("\n"))
	var r Report
	err := json.Unmarshal(lines[len(lines)-1], &r)
	return r, err == nil && (r.Refusal != nil || r.Encoding != "")
}

// first is the first line of what was said, to follow other words.
func (s *said) first() string {
	line, _, _ := bytes.Cut(bytes.TrimSpace(s.kept.Bytes()), []byte("\n"))
	if len(line) == 0 {
		return ""
	}
	return ": " + string(line)
}
