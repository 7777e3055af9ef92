package wavfile

import (
	"fmt"
	"io"

	"earshot/dsp"
)

// blockBytes is how much is read at a time: small enough to stay in the cache
// between reading, checksum and conversion.
const blockBytes = 64 << 10

// Reader reads a WAV file as a dsp.Source. It is not safe for concurrent use.
type Reader struct {
	file   *file
	layout layout

	ahead  block // sequential reading
	aside  block // reading elsewhere
	pos    int64 // next frame of sequential reading to be fetched
	err    error // sticky: io.EOF or what broke the sequential reading
	bad    int64 // samples replaced by 0 in sequential reading
	copyTo io.Writer
	copied bool // what lies before the samples has been copied
}

// block is a piece of the file as it was read, in whole frames.
type block struct {
	buf  []byte // allocated once, at most blockBytes
	rest []byte // part of buf not yet converted
}

// NewReader reads the WAV file of the given size in bytes from r; name is what
// errors call it. The caller keeps r and closes it.
func NewReader(r io.ReaderAt, size int64, name string) (*Reader, error) {
	f := &file{r: r, size: size, name: name}
	l, err := readLayout(f)
	if err != nil {
		return nil, err
	}
	return &Reader{file: f, layout: l}, nil
}

// Format is the clip's rate and channels.
func (r *Reader) Format() dsp.Format { return r.layout.coding.Format }

// Frames is the number of whole frames that the file really holds.
func (r *Reader) Frames() int64 { return r.layout.frames }

// Encoding names the format, as in "WAV, 16-bit PCM".
func (r *Reader) Encoding() string {
	if r.layout.form == "RIFF" {
		return "WAV, " + r.layout.coding.name
	}
	return r.layout.form + ", " + r.layout.coding.name
}

// Warnings lists the doubts about the file. Samples that are no number are
// known of once ReadFrames has passed over them.
func (r *Reader) Warnings() []Warning {
	list := append([]Warning(nil), r.layout.warnings...)
	if r.bad > 0 {
		list = append(list, Warning{NonFiniteSample, fmt.Sprintf("%d of %d samples are no usable number and were set to 0", r.bad, r.layout.frames*int64(r.Format().Channels))})
	}
	return list
}

// CopyTo has every byte of the file, headers and tail included, written to w in
// order while ReadFrames goes from the first sample to io.EOF: a checksum then
// costs no reading of its own. It must be called before the first ReadFrames.
func (r *Reader) CopyTo(w io.Writer) { r.copyTo = w }
