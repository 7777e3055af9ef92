package wavfile

import (
	"encoding/binary"
	"fmt"
	"math"
)

// layout is all that the header tells: how samples are coded and where they lie.
type layout struct {
	form     string // RIFF, RF64 or BW64
	coding   coding
	start    int64 // first byte of the samples
	frames   int64
	warnings []Warning
}

// scan walks the chunks of f from its start.
type scan struct {
	*file
	layout
	longSize int64 // length of the samples by ds64; −1 where not given
	hasFmt   bool
	hasData  bool
	data     chunk // the chunk of samples, size as claimed
	streamed bool  // the header left the length of the samples open
	dataEnd  int64 // first byte after the samples
	walked   int64 // byte up to which chunks were found
	tail     int64 // bytes at the end that are no chunk
}

// readLayout finds format and samples of f, or says why it can't.
func readLayout(f *file) (layout, error) {
	s := scan{file: f, longSize: -1}
	if err := s.readForm(); err != nil {
		return layout{}, err
	}
	if err := s.walk(); err != nil {
		return layout{}, err
	}
	if err := s.settle(); err != nil {
		return layout{}, err
	}
	return s.layout, nil
}

const formBytes = 12 // RIFF, size, WAVE

// readForm checks that the file is a WAV file at all.
func (s *scan) readForm() error {
	if s.size == 0 {
		return &Error{Kind: ErrEmpty, File: s.name, Found: "a file of 0 bytes", Hint: hintRecord}
	}
	var head [formBytes]byte
	n := min(s.size, formBytes)
	if err := s.readFull(head[:n], 0); err != nil {
		return err
	}
	const allowed = `"RIFF", "RF64" or "BW64"`
	switch s.form = string(head[:4]); s.form {
	case "RIFF", "RF64", "BW64":
	case "RIFX":
		return &Error{Kind: ErrUnsupported, File: s.name, Found: `"RIFX" (big-endian)`, Allowed: allowed, Hint: hintExport}
	case "riff":
		return &Error{Kind: ErrUnsupported, File: s.name, Found: `"riff" (Wave64)`, Allowed: allowed, Hint: hintExport}
	default:
		return &Error{Kind: ErrNotWAV, File: s.name, Found: fmt.Sprintf("%+q", head[:min(n, 4)]), Allowed: allowed, Hint: hintExport}
	}
	if n < formBytes {
		return &Error{Kind: ErrDamaged, File: s.name, Offset: s.size, Found: "the end of the file inside its header", Hint: hintCopy}
	}
	if form := string(head[8:]); form != "WAVE" {
		return &Error{Kind: ErrNotWAV, File: s.name, Chunk: s.form, Offset: 8, Found: fmt.Sprintf("form %+q", form), Allowed: `"WAVE"`, Hint: hintExport}
	}
	return nil
}

// walk takes up one chunk after the other until the file ends or what follows
// the samples is no chunk any more.
func (s *scan) walk() error {
	s.walked = formBytes
	for n := 0; n < maxChunks && s.size-s.walked >= headerBytes; n++ {
		c, err := s.chunkAt(s.walked)
		if err != nil {
			return err
		}
		if s.isTail(c) {
			s.tail = s.size - s.walked
			return nil
		}
		if s.walked, err = s.take(c); err != nil {
			return err
		}
	}
	return nil
}

// isTail tells whether c, found once format and samples are known, is no chunk
// but whatever the file happens to end with.
func (s *scan) isTail(c chunk) bool {
	return s.hasFmt && s.hasData && (s.likeness(c.offset) == 0 || s.overruns(c))
}

func (s *scan) overruns(c chunk) bool { return c.size > s.size-c.body() }

// take reads what c has to tell and returns where the next chunk starts.
func (s *scan) take(c chunk) (int64, error) {
	if c.id == "data" {
		return s.takeData(c)
	}
	if s.overruns(c) {
		return 0, &Error{
			Kind: ErrDamaged, File: s.name, Chunk: c.id, Offset: c.offset,
			Found: fmt.Sprintf("a size of %d bytes", c.size), Allowed: fmt.Sprintf("%d, which the file still holds", s.size-c.body()), Hint: hintCopy,
		}
	}
	var err error
	switch {
	case c.id == "fmt " && !s.hasFmt:
		s.coding, err = readFmt(s.file, c)
		s.hasFmt = true
	case c.id == "ds64" && s.form != "RIFF":
		err = s.takeDS64(c)
	case c.id == "RIFF" && s.hasData:
		s.warn(SecondData, "another WAV file is joined to the end of this one and is not read")
	}
	return s.next(c, c.size), err
}

// takeDS64 reads the 64-bit length of the samples (EBU Tech 3306).
func (s *scan) takeDS64(c chunk) error {
	const riffSize, dataSize = 8, 8
	if c.size < riffSize+dataSize {
		return &Error{Kind: ErrDamaged, File: s.name, Chunk: c.id, Offset: c.offset, Found: fmt.Sprintf("a size of %d bytes", c.size), Allowed: "28 or more", Hint: hintCopy}
	}
	var b [dataSize]byte
	if err := s.readFull(b[:], c.body()+riffSize); err != nil {
		return err
	}
	if v := binary.LittleEndian.Uint64(b[:]); v <= math.MaxInt64 {
		s.longSize = int64(v)
	}
	return nil
}
