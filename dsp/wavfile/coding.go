package wavfile

import "fmt"

// coding picks the converter for the chunk's format tag.
func (h *fmtChunk) coding() (coding, error) {
	switch h.tag {
	case tagPCM:
		return h.pcm()
	case tagFloat:
		return h.float()
	case tagALaw:
		return h.companded("A-law", aLaw)
	case tagMuLaw:
		return h.companded("mu-law", muLaw)
	}
	return coding{}, h.refuse(ErrUnsupported, "format "+tagName(h.tag), "PCM, float, A-law or mu-law")
}

// pcm reads integers by the container's width; bits not in use are zero and lie
// at its lower end, so they need no treatment. Up to 8 bits are offset binary,
// more are two's complement.
func (h *fmtChunk) pcm() (coding, error) {
	width := h.width()
	if h.bits < 1 || h.bits > 32 || int(h.bits) > 8*width || width > 4 || (h.bits <= 8) != (width == 1) {
		return coding{}, h.refuse(ErrUnsupported, fmt.Sprintf("%d-bit PCM in %d-byte containers", h.bits, width), "1 to 8 bits in 1 byte, 9 to 32 bits in 2 to 4 bytes")
	}
	name := fmt.Sprintf("%d-bit PCM", h.valid)
	if int(h.valid) != 8*width {
		name = fmt.Sprintf("%d-bit PCM in %d-byte containers", h.valid, width)
	}
	byWidth := [...]converter{1: unsigned8, 2: signed16, 3: signed24, 4: signed32}
	return coding{name: name, width: width, convert: byWidth[width]}, nil
}

func (h *fmtChunk) float() (coding, error) {
	width := h.width()
	switch {
	case h.bits == 32 && width == 4:
		return coding{name: "32-bit float", width: 4, convert: float32s}, nil
	case h.bits == 64 && width == 8:
		return coding{name: "64-bit float", width: 8, convert: float64s}, nil
	}
	return coding{}, h.refuse(ErrUnsupported, fmt.Sprintf("%d-bit float in %d-byte containers", h.bits, width), "32 bits in 4 bytes or 64 bits in 8")
}

// companded reads one byte a sample through a table, which is made once a file.
func (h *fmtChunk) companded(name string, expand func(byte) int) (coding, error) {
	if h.bits != 8 || h.width() != 1 {
		return coding{}, h.refuse(ErrUnsupported, fmt.Sprintf("%d-bit %s in %d-byte containers", h.bits, name, h.width()), "8 bits in 1 byte")
	}
	return coding{name: name, width: 1, convert: byTable(expand)}, nil
}

// tagName names the codings that recorders are known to put into WAV files
// (Microsoft, mmreg.h).
func tagName(tag uint16) string {
	known := map[uint16]string{
		0x0002: "Microsoft ADPCM", 0x0011: "IMA ADPCM", 0x0031: "GSM 6.10", 0x0040: "G.721 ADPCM",
		0x0050: "MPEG", 0x0055: "MP3", 0x00FF: "AAC", 0x0161: "Windows Media Audio",
	}
	if name, ok := known[tag]; ok {
		return fmt.Sprintf("0x%04X (%s)", tag, name)
	}
	return fmt.Sprintf("0x%04X", tag)
}
