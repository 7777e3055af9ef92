package clip

// Format is what a file is, as a person would call it; empty where it is not known.
type Format string

const (
	formatUnknown Format = ""
	formatWAV     Format = "WAV"
	formatText    Format = "text"
	formatArchive Format = "ZIP archive"
	formatM4A     Format = "M4A"
	formatMP4     Format = "MP4"
	formatMOV     Format = "MOV"
	format3GP     Format = "3GP"
	formatMP3     Format = "MP3"
	formatAAC     Format = "AAC"
	formatFLAC    Format = "FLAC"
	formatOpus    Format = "Opus"
	formatVorbis  Format = "Ogg Vorbis"
	formatOgg     Format = "Ogg"
	formatAMR     Format = "AMR"
	formatCAF     Format = "CAF"
	formatWebM    Format = "WebM"
	formatAIFF    Format = "AIFF"
)

// HintExport is what to do with a recording that can't be read.
const HintExport = "export it as 16-bit or 24-bit PCM WAV, in the recorder or a sound editor"

// Demuxer is ffmpeg's name for the format of a file that is decoded; empty for one that
// is not.
func (f Format) Demuxer() string {
	switch f {
	case formatM4A, formatMP4, formatMOV, format3GP:
		return "mov"
	case formatOpus, formatVorbis, formatOgg:
		return "ogg"
	case formatMP3:
		return "mp3"
	case formatAAC:
		return "aac"
	case formatFLAC:
		return "flac"
	case formatAMR:
		return "amr"
	case formatCAF:
		return "caf"
	case formatWebM:
		return "matroska"
	case formatAIFF:
		return "aiff"
	}
	return ""
}
