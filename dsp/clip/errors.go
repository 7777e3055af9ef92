package clip

import (
	"errors"
	"fmt"
	"io/fs"
	"os"

	"earshot/dsp/wavfile"
)

// Code names what is wrong with a clip. Codes are stable.
type Code string

// What can be wrong with a clip.
const (
	MissingFile    Code = "missing-file"
	NotAFile       Code = "not-a-file"      // a folder, pipe, socket or device
	Unreadable     Code = "unreadable"      // permission, or a failing disk
	Empty          Code = "empty"           // no bytes, or no samples
	NotARecording  Code = "not-a-recording" // text, or nothing known
	FormatNotRead  Code = "format-not-read" // sound, but of a kind that is not read
	UnsupportedWAV Code = "unsupported-wav" // a kind of WAV that is not read
	DamagedWAV     Code = "damaged-wav"
	Damaged        Code = "damaged" // of another format: its times can't be trusted
	Changed        Code = "changed" // written to while it was read
	TooLong        Code = "too-long"
	NoDecoder      Code = "no-decoder"     // the program that reads this format is missing
	DecoderFailed  Code = "decoder-failed" // or it went wrong
	NoRoom         Code = "no-room"        // in the folder for temporary files
)

// Error says what is wrong with a clip and what to do.
type Error struct {
	Code    Code   `json:"code"`
	File    string `json:"-"`       // as it was named by the caller
	Message string `json:"message"` // what is wrong
	Hint    string `json:"hint"`    // what to do
	Err     error  `json:"-"`       // what lies behind it; may be nil
}

// Error gives the whole on one line: file, what is wrong, what to do.
func (e *Error) Error() string { return e.File + ": " + e.Message + "; " + e.Hint }

// Unwrap yields what lies behind the error.
func (e *Error) Unwrap() error { return e.Err }

// fromWAV gives an error of package wavfile its code. Other errors, and nil,
// pass as they are.
func fromWAV(err error) error {
	if err == nil {
		return nil // once a block: errors.As would allocate
	}
	var w *wavfile.Error
	if !errors.As(err, &w) {
		return err
	}
	e := &Error{File: w.File, Message: w.Message(), Hint: w.Hint, Err: err}
	switch w.Kind {
	case wavfile.ErrNotWAV:
		e.Code = FormatNotRead
	case wavfile.ErrUnsupported:
		e.Code = UnsupportedWAV
	case wavfile.ErrEmpty:
		e.Code = Empty
	case wavfile.ErrRead:
		e.Code = Unreadable
	default:
		e.Code = DamagedWAV
	}
	return e
}

// openError is for a file that the system does not let us open.
func openError(path string, err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return &Error{Code: MissingFile, File: path, Message: "there is no such file", Hint: "check the name and the folder", Err: err}
	case errors.Is(err, fs.ErrPermission):
		return &Error{Code: Unreadable, File: path, Message: "you may not read this file", Hint: "change its permissions, or copy it to where you may read it", Err: err}
	}
	return &Error{Code: Unreadable, File: path, Message: "the file cannot be opened: " + reason(err), Hint: "check the name and the folder", Err: err}
}

// readError is for an open file that does not give its bytes.
func readError(path string, err error) error {
	return &Error{Code: Unreadable, File: path, Message: "the file cannot be read: " + reason(err), Hint: "see that the disk or card is still connected, copy the file to this machine and try again", Err: err}
}

// noDecoder is for a clip whose format takes a program that is not here.
func noDecoder(path string, f Format, err error) error {
	return &Error{Code: NoDecoder, File: path, Message: fmt.Sprintf("this is %s, and %s, the program that reads it, is not here", f, decoderName),
		Hint: "\"make\" builds both: put it beside earshot, or export the recording as WAV", Err: err}
}

// decoderFailed is for a decoder that went wrong, whatever the clip is.
func decoderFailed(path, message string, err error) error {
	return &Error{Code: DecoderFailed, File: path, Message: message, Hint: HintExport, Err: err}
}

// noRoom is for a decoded clip that can't be kept.
func noRoom(path string, err error) error {
	return &Error{Code: NoRoom, File: path, Message: "it can't be decoded into the folder " + os.TempDir() + ": " + reason(err), Hint: "make room there, or name another folder in TMPDIR", Err: err}
}

// reason is err without the path, which our errors name already.
func reason(err error) string {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err.Error()
	}
	return err.Error()
}
