package wavfile

import (
	"errors"
	"strconv"
	"strings"
)

// What can be wrong with a file, for errors.Is.
var (
	ErrNotWAV      = errors.New("not a WAV file")
	ErrUnsupported = errors.New("a kind of WAV that is not read")
	ErrDamaged     = errors.New("the WAV file is damaged")
	ErrEmpty       = errors.New("no sound in the file")
	ErrRead        = errors.New("the file cannot be read")
)

// Error says where a file was refused and what to do about it.
type Error struct {
	Kind    error  // one of the sentinels above
	File    string // as it was named by the caller
	Chunk   string // four-character name of the chunk; empty outside any
	Offset  int64  // byte in the file at which the trouble lies
	Found   string // what was found there
	Allowed string // what would have been accepted; may be empty
	Hint    string // what to do
	Cause   error  // the error of the system behind it, where there is one
}

// Error gives the whole on one line: file, what is wrong, what to do.
func (e *Error) Error() string {
	return e.File + ": " + e.Message() + "; " + e.Hint
}

// Message says what is wrong, without the file's name and the hint.
func (e *Error) Message() string {
	var b strings.Builder
	b.WriteString(e.Kind.Error() + ": ")
	if e.Chunk != "" {
		b.WriteString("chunk " + strconv.QuoteToASCII(e.Chunk) + " ")
	}
	b.WriteString("at byte " + strconv.FormatInt(e.Offset, 10) + ": found " + e.Found)
	if e.Allowed != "" {
		b.WriteString(", allowed " + e.Allowed)
	}
	return b.String()
}

// Unwrap yields the sentinel and, where there is one, the system's error.
func (e *Error) Unwrap() []error {
	if e.Cause == nil {
		return []error{e.Kind}
	}
	return []error{e.Kind, e.Cause}
}

// The advice that a refusal ends with.
const (
	hintExport = "export the recording as 16-bit or 24-bit PCM WAV"
	hintCopy   = "copy it again from the recorder, or export it anew as WAV"
	hintRecord = "record again, and see that the recorder saves the file before it is copied"
	hintDisk   = "see that the disk or card is still connected, copy the file to this machine and try again"
)

// WarningCode names a doubt about a file that was read all the same. Codes are stable.
type WarningCode string

// The doubts a file can raise.
const (
	Truncated       WarningCode = "truncated"          // the file ends before its header says
	StreamedSize    WarningCode = "streamed-size"      // the header gives no length; read to the end
	SecondData      WarningCode = "second-sound"       // more sound follows that is not read
	UnreadTail      WarningCode = "unread-tail"        // bytes follow that belong to no chunk
	NonFiniteSample WarningCode = "non-finite-samples" // samples that are no number were set to 0
)

// Warning is a doubt that travels with the samples.
type Warning struct {
	Code    WarningCode
	Message string
}
