package wavfile

import (
	"bytes"
	"io"

	"github.com/go-audio/riff"
)

// maxChunks bounds the walk over a file made of nothing but chunk headers. Real
// files hold a dozen (common practice, no source).
const maxChunks = 4096

// file is what is being read, with the name it goes by in errors.
type file struct {
	r    io.ReaderAt
	size int64 // bytes
	name string
}

// chunk is one chunk as its header claims it.
type chunk struct {
	id     string
	offset int64 // of the header
	size   int64 // of the body as claimed; may reach beyond the file
}

const headerBytes = 8 // name and size before each chunk's body

func (c chunk) body() int64 { return c.offset + headerBytes }

// chunkAt reads the chunk header at off, which lies wholly inside the file.
func (f *file) chunkAt(off int64) (chunk, error) {
	var head [headerBytes]byte
	if err := f.readFull(head[:], off); err != nil {
		return chunk{}, err
	}
	// The parser overlooks a missing size word, so it sees complete headers only.
	id, size, err := riff.New(bytes.NewReader(head[:])).IDnSize()
	if err != nil {
		return chunk{}, f.readError(off, err)
	}
	return chunk{id: string(id[:]), offset: off, size: int64(size)}, nil
}

// next is where the chunk after c starts, given the bytes that c really takes.
// Bodies are padded to an even length, which some writers forget and others
// overdo; the place that looks more like a chunk's name wins.
func (f *file) next(c chunk, size int64) int64 {
	end := c.body() + size
	padded, other := end+size%2, end+1-size%2
	if f.likeness(other) > f.likeness(padded) {
		return other
	}
	return padded
}

// likeness says how much the bytes at off look like a chunk's name: 2 a known
// one, 1 four printable characters, 0 neither or beyond the file.
func (f *file) likeness(off int64) int {
	var id [4]byte
	if off+int64(len(id)) > f.size || f.readFull(id[:], off) != nil {
		return 0
	}
	switch string(id[:]) {
	case "fmt ", "data", "fact", "LIST", "JUNK", "junk", "PAD ", "FLLR", "bext", "ds64", "cue ", "smpl",
		"inst", "iXML", "axml", "chna", "id3 ", "ID3 ", "PEAK", "cart", "acid", "plst", "DISP", "RIFF":
		return 2
	}
	for _, b := range id {
		if b < ' ' || b > '~' {
			return 0
		}
	}
	return 1
}

// readFull fills p from off on. A reader that returns less than asked for is
// asked again; the end of the file inside p is an error.
func (f *file) readFull(p []byte, off int64) error {
	for read := 0; read < len(p); {
		n, err := f.r.ReadAt(p[read:], off+int64(read))
		read += n
		if read == len(p) {
			break
		}
		if err == nil && n == 0 {
			err = io.ErrNoProgress
		}
		if err != nil {
			return f.readError(off+int64(read), err)
		}
	}
	return nil
}

// readError is for bytes that the file's size promises and that did not come.
func (f *file) readError(off int64, err error) error {
	found := err.Error()
	if err == io.EOF {
		found = "the end of a file that was longer when it was opened"
	}
	return &Error{Kind: ErrRead, File: f.name, Offset: off, Found: found, Hint: hintDisk, Cause: err}
}
