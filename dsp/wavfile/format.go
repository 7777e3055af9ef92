package wavfile

import (
	"encoding/binary"
	"fmt"

	"earshot/dsp"
)

// What a clip may have.
const (
	MinRate, MaxRate = 8000, 384000 // Hz
	maxChannels      = 64
)

// Format tags of the fmt chunk (Microsoft, mmreg.h).
const (
	tagPCM        = 0x0001
	tagFloat      = 0x0003
	tagALaw       = 0x0006
	tagMuLaw      = 0x0007
	tagExtensible = 0xFFFE
)

// coding is how samples are laid down in the file.
type coding struct {
	dsp.Format
	name    string // "16-bit PCM"
	width   int    // bytes a sample
	convert converter
}

func (c coding) frameBytes() int { return c.width * c.Channels }

// fmtChunk holds the fields of the fmt chunk as they stand in the file.
type fmtChunk struct {
	tag, channels uint16
	rate          uint32
	blockAlign    uint16
	bits, valid   uint16 // bits of the container (or sample), and those in use
	*file
	chunk
}

// readFmt reads and checks the fmt chunk c.
func readFmt(f *file, c chunk) (coding, error) {
	h, err := readFields(f, c)
	if err != nil {
		return coding{}, err
	}
	if h.rate < MinRate || h.rate > MaxRate {
		return coding{}, h.refuse(ErrUnsupported, fmt.Sprintf("%d Hz", h.rate), fmt.Sprintf("%d to %d Hz", MinRate, MaxRate))
	}
	if h.channels < 1 || h.channels > maxChannels {
		return coding{}, h.refuse(ErrUnsupported, fmt.Sprintf("%d channels", h.channels), fmt.Sprintf("1 to %d", maxChannels))
	}
	if h.blockAlign == 0 || h.blockAlign%h.channels != 0 {
		return coding{}, h.refuse(ErrDamaged, fmt.Sprintf("frame size %d bytes, channels %d", h.blockAlign, h.channels), "a whole number of bytes for each channel")
	}
	code, err := h.coding()
	code.Format = dsp.Format{Rate: int(h.rate), Channels: int(h.channels)}
	return code, err
}

// Lengths of the fmt chunk: the fields every PCM file has, and those of the
// extensible form.
const fmtBytes, extensibleBytes = 16, 40

// readFields reads the fields and resolves the extensible form's sub-format.
func readFields(f *file, c chunk) (fmtChunk, error) {
	h := fmtChunk{file: f, chunk: c}
	if c.size < fmtBytes {
		return h, h.refuse(ErrDamaged, fmt.Sprintf("a size of %d bytes", c.size), "16 or more")
	}
	var b [extensibleBytes]byte
	n := min(c.size, extensibleBytes)
	if err := f.readFull(b[:n], c.body()); err != nil {
		return h, err
	}
	le := binary.LittleEndian
	h.tag, h.channels, h.rate = le.Uint16(b[0:]), le.Uint16(b[2:]), le.Uint32(b[4:])
	h.blockAlign, h.bits = le.Uint16(b[12:]), le.Uint16(b[14:])
	h.valid = h.bits
	if h.tag != tagExtensible {
		return h, nil
	}
	if n < extensibleBytes {
		return h, h.refuse(ErrDamaged, fmt.Sprintf("a size of %d bytes", c.size), "40 or more for the extensible form")
	}
	return h, h.resolve(b[18:])
}

// guidTail is what the GUID of a sub-format that stands for a format tag ends with.
const guidTail = "\x00\x00\x00\x00\x10\x00\x80\x00\x00\xaa\x00\x38\x9b\x71"

// resolve reads the extension: valid bits, channel mask, and the GUID of the
// sub-format, whose first two bytes are the format tag.
func (h *fmtChunk) resolve(ext []byte) error {
	le := binary.LittleEndian
	if valid := le.Uint16(ext); valid != 0 { // some writers leave it open
		h.valid = valid
	}
	guid := ext[6:22]
	if string(guid[2:]) != guidTail {
		return h.refuse(ErrUnsupported, fmt.Sprintf("sub-format %x", guid), "PCM, float, A-law or mu-law")
	}
	h.tag = le.Uint16(guid)
	if h.valid > h.bits {
		return h.refuse(ErrDamaged, fmt.Sprintf("%d valid bits of %d", h.valid, h.bits), fmt.Sprintf("1 to %d", h.bits))
	}
	return nil
}

// width is the number of bytes that one sample takes.
func (h *fmtChunk) width() int { return int(h.blockAlign / h.channels) }

func (h *fmtChunk) refuse(kind error, found, allowed string) error {
	hint := hintExport
	if kind == ErrDamaged {
		hint = hintCopy
	}
	return &Error{Kind: kind, File: h.name, Chunk: h.id, Offset: h.offset, Found: found, Allowed: allowed, Hint: hint}
}
