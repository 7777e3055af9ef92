package clip

import (
	"bytes"
	"unicode/utf8"
)

// SniffBytes is how much of a file's start decides what it is.
const SniffBytes = 512

// magic is how files of a format start.
type magic struct {
	offset int
	bytes  string
	format Format
}

// magics lists formats by their first bytes, the narrower before the wider. The
// values are those of the formats' own specifications (from memory).
func magics() []magic {
	return []magic{
		{0, "RIFF", formatWAV}, // or another RIFF form, which the WAV reader names
		{0, "RIFX", formatWAV},
		{0, "RF64", formatWAV},
		{0, "BW64", formatWAV},
		{0, "riff\x2e\x91\xcf\x11", formatWAV},
		{4, "ftypM4A", formatM4A},
		{4, "ftypM4B", formatM4A},
		{4, "ftypqt", formatMOV},
		{4, "ftyp3g", format3GP},
		{4, "ftyp", formatMP4},
		{4, "moov", formatMOV},
		{4, "mdat", formatMOV},
		{4, "wide", formatMOV},
		{0, "ID3", formatMP3},
		{0, "fLaC", formatFLAC},
		{28, "OpusHead", formatOpus},
		{29, "vorbis", formatVorbis},
		{0, "OggS", formatOgg},
		{0, "#!AMR", formatAMR},
		{0, "caff", formatCAF},
		{0, "\x1a\x45\xdf\xa3", formatWebM},
		{0, "FORM", formatAIFF},
		{0, ".snd", "AU"},
		{0, "\x30\x26\xb2\x75\x8e\x66\xcf\x11", "WMA"},
		{0, "PK\x03\x04", formatArchive},
	}
}

// Sniff tells a file's format from its start.
func Sniff(head []byte) Format {
	for _, m := range magics() {
		if m.offset <= len(head) && bytes.HasPrefix(head[m.offset:], []byte(m.bytes)) {
			return m.format
		}
	}
	switch {
	case isText(head):
		return formatText
	case len(head) < 2 || head[0] != 0xFF:
		return formatUnknown
	case head[1]&0xE6 == 0xE2: // frame sync and layer III (ISO/IEC 11172-3)
		return formatMP3
	case head[1]&0xF6 == 0xF0: // frame sync of ADTS (ISO/IEC 13818-7)
		return formatAAC
	}
	return formatUnknown
}

// isText tells UTF-8 without control characters; the last character may be cut.
func isText(head []byte) bool {
	for len(head) > 0 {
		r, n := utf8.DecodeRune(head)
		if r == utf8.RuneError && n == 1 {
			return !utf8.FullRune(head)
		}
		if r < ' ' && r != '\n' && r != '\r' && r != '\t' || r == 0x7F {
			return false
		}
		head = head[n:]
	}
	return true
}

// refuseFormat is for a file that is neither WAV nor decoded.
func refuseFormat(path string, f Format) error {
	e := &Error{Code: NotARecording, File: path, Hint: "record the shutter and export the recording as WAV"}
	switch f {
	case formatUnknown:
		e.Message = "this is no sound file that is known here"
	case formatText:
		e.Message = "this is text, not a recording"
	case formatArchive:
		e.Message, e.Hint = "this is a ZIP archive", "unpack it and name the clips in it"
	default:
		e.Code, e.Message = FormatNotRead, "this is "+string(f)+", which is not read"
		e.Hint = HintExport
	}
	return e
}
