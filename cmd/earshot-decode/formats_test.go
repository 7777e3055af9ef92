package main

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"earshot/dsp"
	"earshot/dsp/clip"
	"earshot/dsp/outside"
	"earshot/dsp/wavfile"
)

// formats are what phones, recorders and editors write, by how ffmpeg makes them.
var formats = []struct {
	name, file, encode string
	words              string // that the format's name begins with
	decode             string // what the other ffmpeg needs to be told
	doubt              string // code of the warning due
}{
	{"a voice memo", "a.m4a", "-c:a aac -b:a 128k", "AAC in M4A, 1", "", ""},
	{"a voice memo at 44.1 kHz in stereo", "b.m4a", "-ar 44100 -ac 2 -c:a aac -b:a 160k", "AAC in M4A, 1", "", ""},
	{"a lossless voice memo", "c.m4a", "-c:a alac", "ALAC in M4A", "", ""},
	{"a phone's recorder", "d.mp4", "-c:a aac -b:a 96k -movflags +faststart", "AAC in MP4, ", "", ""},
	{"a fragmented MP4", "e.mp4", "-c:a aac -b:a 96k -movflags frag_keyframe+empty_moov", "AAC in MP4, ", "", ""},
	{"a film", "f.mov", "-c:a aac -b:a 128k", "AAC in MOV, 1", "", ""},
	{"a film with PCM", "g.mov", "-c:a pcm_s24le", "PCM in MOV", "", ""},
	{"AAC without a container", "h.aac", "-c:a aac -b:a 96k", "AAC, ", "", ""},
	{"MP3", "i.mp3", "-c:a libmp3lame -b:a 192k", "MP3, 192", "", ""},
	{"MP3 of a poor rate", "j.mp3", "-c:a libmp3lame -b:a 48k", "MP3, 48", "", lowBitRate},
	{"MP3 of varying rate without a length", "k.mp3", "-c:a libmp3lame -q:a 0 -write_xing 0", "MP3, ", "", ""},
	{"FLAC", "l.flac", "-c:a flac", "FLAC", "", ""},
	{"FLAC of 24 bits", "m.flac", "-c:a flac -sample_fmt s32", "FLAC", "", ""},
	{"FLAC in Ogg", "n.ogg", "-c:a flac", "FLAC in Ogg", "", ""},
	{"Ogg Vorbis", "o.ogg", "-c:a libvorbis -q:a 5", "Ogg Vorbis, ", "", ""},
	{"Opus", "p.opus", "-c:a libopus -b:a 96k", "Opus, ", "-c:a libopus", ""},
	{"a messenger's Opus", "q.ogg", "-c:a libopus -b:a 16k -application voip", "Opus, ", "-c:a libopus", lowBitRate},
	{"a browser's recorder", "r.webm", "-c:a libopus -b:a 96k", "Opus in WebM, ", "-c:a libopus", ""},
	{"Vorbis in WebM", "s.webm", "-c:a libvorbis -q:a 5", "Vorbis in WebM, ", "", ""},
	{"CAF with PCM", "t.caf", "-c:a pcm_s16le", "PCM in CAF", "", ""},
	{"CAF, lossless", "u.caf", "-c:a alac", "ALAC in CAF", "", ""},
	{"AIFF", "v.aiff", "-c:a pcm_s16be", "PCM in AIFF", "", ""},
}

// The same file decoded by the ffmpeg of the machine is the yardstick: as many samples,
// each the same but for rounding, and every onset within one sample.
func TestEachFormatIsHeardAsFFmpegDecodesIt(t *testing.T) {
	needing(t)
	plain := recording(t)
	for i, f := range formats {
		if testing.Short() && i%7 > 0 {
			continue
		}
		t.Run(f.name, func(t *testing.T) {
			dir := t.TempDir()
			coded, other := filepath.Join(dir, f.file), filepath.Join(dir, "other.wav")
			ffmpeg(t, append(append([]string{"-i", plain}, strings.Fields(f.encode)...), coded)...)
			ffmpeg(t, append(strings.Fields(f.decode), "-i", coded, "-c:a", "pcm_f32le", other)...)
			c, err := clip.OpenContext(t.Context(), coded, os.Stderr)
			if err != nil {
				t.Fatal(err)
			}
			defer c.Close()
			if !strings.HasPrefix(c.Encoding(), f.words) {
				t.Errorf("it is called %q, want %q", c.Encoding(), f.words)
			}
			checkDoubt(t, c.Warnings(), f.doubt)
			b := load(t, other)
			want, err := wavfile.NewReader(strings.NewReader(string(b)), int64(len(b)), other)
			if err != nil {
				t.Fatal(err)
			}
			source := outside.Source{
				Name:    "ffmpeg, decoding what it coded",
				Figures: "run beside this program, by Debian's ffmpeg; what decodes here is built of ffmpeg too, so this shows what is lost on the way through",
			}
			ours, theirs := samples(t, c, want)
			codec, digits := arithmetic(f.encode)
			outside.All(t, source, f.name+", "+codec, ours, theirs, digits)
			sameOnsets(t, c, want)
		})
	}
}

// arithmetic is the coder of a line of formats, and how many digits two builds of its
// decoder agree in: all, but where they may round differently.
func arithmetic(encode string) (codec string, digits float64) {
	_, codec, _ = strings.Cut(encode, "-c:a ")
	codec, _, _ = strings.Cut(codec, " ")
	if digits, rounds := map[string]float64{"aac": 6, "libvorbis": 6, "libmp3lame": 5, "libopus": 3}[codec]; rounds {
		return codec, digits
	}
	return codec, 16
}

func checkDoubt(t *testing.T, got []clip.Warning, code string) {
	t.Helper()
	if code == "" && len(got) > 0 || code != "" && (len(got) != 1 || string(got[0].Code) != code) {
		t.Errorf("warnings %v, want %q", got, code)
	}
}

// samples are all of a clip, and of what ffmpeg decodes, which must be as many.
func samples(t *testing.T, c *clip.Clip, want *wavfile.Reader) (ours, theirs []float64) {
	t.Helper()
	if c.Format() != want.Format() || c.Frames() != want.Frames() {
		t.Fatalf("%d frames of %v, ffmpeg gives %d of %v", c.Frames(), c.Format(), want.Frames(), want.Format())
	}
	const block = 4096
	x, y := make([]float64, block*c.Format().Channels), make([]float64, block*c.Format().Channels)
	for at := int64(0); at < c.Frames(); at += block {
		n, err := c.ReadFramesAt(x, at)
		if m, wantErr := want.ReadFramesAt(y, at); m != n || err != nil || wantErr != nil {
			t.Fatalf("at frame %d: %d and %d frames, %v, %v", at, n, m, err, wantErr)
		}
		ours = append(ours, x[:n*c.Format().Channels]...)
		theirs = append(theirs, y[:n*c.Format().Channels]...)
	}
	return ours, theirs
}

func sameOnsets(t *testing.T, got, want dsp.Source) {
	t.Helper()
	a, err := dsp.Listen(got)
	if err != nil {
		t.Fatal(err)
	}
	b, err := dsp.Listen(want)
	if err != nil {
		t.Fatal(err)
	}
	if len(a.Transients) != len(b.Transients) || len(a.Transients) < 18 {
		t.Fatalf("%d transients heard, %d in what ffmpeg decodes, want 18 or more", len(a.Transients), len(b.Transients))
	}
	for i := range a.Transients {
		if off := a.Transients[i].Onset - b.Transients[i].Onset; math.Abs(off) > 1 {
			t.Errorf("onset %d at sample %.1f is off by %.2f samples", i, b.Transients[i].Onset, off)
		}
	}
}
