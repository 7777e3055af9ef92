package clip

import (
	"bytes"
	"unicode/utf8"
)

// sniffBytes is how much of a file's start decides what it is.
const sniffBytes = 512

// format is what a file is, as a person would call it.
type format string

const (
	formatUnknown format = ""
	formatWAV     format = "WAV"
	formatText    format = "text"
	formatArchive format = "ZIP archive"
)

// magic is how files of a format start.
type magic struct {
	offset int
	bytes  string
	format format
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
		{4, "ftypM4A", "M4A"},
		{4, "ftypM4B", "M4A"},
		{4, "ftypqt", "MOV"},
		{4, "ftyp3g", "3GP"},
		{4, "ftyp", "MP4 (m4a)"},
		{4, "moov", "MOV"},
		{4, "mdat", "MOV"},
		{4, "wide", "MOV"},
		{0, "ID3", "MP3"},
		{0, "fLaC", "FLAC"},
		{28, "OpusHead", "Opus"},
		{29, "vorbis", "Ogg Vorbis"},
		{0, "OggS", "Ogg"},
		{0, "#!AMR", "AMR"},
		{0, "caff", "CAF"},
		{0, "\x1a\x45\xdf\xa3", "WebM"},
		{0, "FORM", "AIFF"},
		{0, ".snd", "AU"},
		{0, "\x30\x26\xb2\x75\x8e\x66\xcf\x11", "WMA"},
		{0, "PK\x03\x04", formatArchive},
	}
}

// sniff tells a file's format from its start.
func sniff(head []byte) format {
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
		return "MP3"
	case head[1]&0xF6 == 0xF0: // frame sync of ADTS (ISO/IEC 13818-7)
		return "AAC"
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

// refuseFormat is for a file that is no WAV.
func refuseFormat(path string, f format) error {
	e := &Error{Code: NotARecording, File: path, Hint: "record the shutter and export the recording as WAV"}
	switch f {
	case formatUnknown:
		e.Message = "this is no sound file that is known here"
	case formatText:
		e.Message = "this is text, not a recording"
	case formatArchive:
		e.Message, e.Hint = "this is a ZIP archive", "unpack it and name the clips in it"
	default:
		e.Code, e.Message = FormatNotRead, "this is "+string(f)+", and only WAV is read"
		e.Hint = "export it as 16-bit or 24-bit PCM WAV, in the recorder or a sound editor"
	}
	return e
}
