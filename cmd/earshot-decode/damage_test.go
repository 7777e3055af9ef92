package main

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"strings"
	"testing"

	"earshot/dsp/clip"
	"earshot/dsp/wavfile"
)

// damages are what happens to files on their way, to a part in the middle of them.
var damages = []struct {
	name   string
	happen func(b []byte, at int) []byte
}{
	{"a bit is flipped", func(b []byte, at int) []byte { b[at] ^= 0x10; return b }},
	{"4 KiB become zeros", func(b []byte, at int) []byte { clear(b[at : at+4096]); return b }},
	{"4 KiB are lost", func(b []byte, at int) []byte { return append(b[:at], b[at+4096:]...) }},
	{"4 KiB come twice", func(b []byte, at int) []byte { return bytes.Join([][]byte{b[:at], b[at-4096:]}, nil) }},
	{"the second half is lost", func(b []byte, at int) []byte { return b[:len(b)/2] }},
}

// A file damaged on its way is refused, or its time axis is whole: it is as long as
// before, or is said to be cut short.
func TestADamagedFileIsNeverShiftedInTime(t *testing.T) {
	needing(t)
	plain := recording(t)
	random := rand.New(rand.NewPCG(1, 2))
	refusals, codings := 0, 0
	for _, c := range []struct{ file, encode string }{
		{"a.m4a", "-c:a aac -b:a 128k"}, {"b.mp4", "-c:a aac -b:a 128k -movflags +faststart"},
		{"c.mp3", "-c:a libmp3lame -b:a 128k"}, {"d.flac", "-c:a flac"},
		{"e.ogg", "-c:a libvorbis"}, {"f.opus", "-c:a libopus"}, {"g.webm", "-c:a libopus"},
	} {
		if testing.Short() && codings == 1 {
			break
		}
		codings++
		coded := filepath.Join(t.TempDir(), c.file)
		ffmpeg(t, append(append([]string{"-i", plain}, strings.Fields(c.encode)...), coded)...)
		whole := load(t, coded)
		want := lengthOf(t, coded)
		for _, d := range damages {
			at := len(whole)/3 + random.IntN(len(whole)/3)
			path := save(t, c.file, d.happen(bytes.Clone(whole), at))
			if e := refused(t, path); e != nil {
				refusals++
				if e.Code != clip.Damaged || e.Hint == "" || strings.Contains(e.Error(), "\n") {
					t.Errorf("%s, %s: %s %v", c.file, d.name, e.Code, e)
				}
				continue
			}
			if got := lengthOf(t, path); got != want && got != cut {
				t.Errorf("%s, %s at byte %d: %d frames without a word, %d before", c.file, d.name, at, got, want)
			}
		}
	}
	if refusals < 2*codings {
		t.Errorf("only %d refusals of %d codings", refusals, codings)
	}
}

// cut stands for the length of a clip that is said to be cut short.
const cut = -1

func lengthOf(t *testing.T, path string) int64 {
	t.Helper()
	c, err := clip.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	for _, w := range c.Warnings() {
		if w.Code == wavfile.Truncated {
			return cut
		}
	}
	return c.Frames()
}

// amr is a file of AMR at 12.2 kbit/s with frames of chance, after RFC 4867, section 5.
func amr(frames int) []byte {
	random := rand.New(rand.NewPCG(3, 4))
	b := []byte("#!AMR\n")
	for range frames {
		b = append(b, 7<<3|1<<2) // frame type 7, good quality
		for range 31 {
			b = append(b, byte(random.IntN(256)))
		}
	}
	return b
}

func TestSpeechIsDecodedAndDoubted(t *testing.T) {
	withDecoder(t)
	c, err := clip.Open(save(t, "memo.amr", amr(250)))
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	if c.Frames() != 250*160 || c.Format().Rate != 8000 || !strings.HasPrefix(c.Encoding(), "AMR") {
		t.Errorf("%d frames at %d Hz of %s", c.Frames(), c.Format().Rate, c.Encoding())
	}
	checkDoubt(t, c.Warnings(), speechCodec)
}

// Where the voice pauses, AMR may leave frames out; what is decoded then is shorter.
func TestSpeechWithPausesLeftOutIsRefused(t *testing.T) {
	withDecoder(t)
	silence := append([]byte{8<<3 | 1<<2}, 0, 0, 0, 0, 0) // frame type 8: comfort noise
	nothing := []byte{15<<3 | 1<<2}                       // frame type 15: no data
	for name, pause := range map[string][]byte{"comfort noise": silence, "no data": nothing} {
		file := bytes.Join([][]byte{amr(100), bytes.Repeat(pause, 50), amr(100)[len("#!AMR\n"):]}, nil)
		if e := refused(t, save(t, "memo.amr", file)); e == nil || e.Code != clip.Damaged {
			t.Errorf("%s: %v, want the code %s", name, e, clip.Damaged)
		}
	}
}

func TestWhatIsNoRecordingIsRefusedWhateverItsName(t *testing.T) {
	withDecoder(t)
	random := rand.New(rand.NewPCG(5, 6))
	noise := make([]byte, 100000)
	for i := range noise {
		noise[i] = byte(random.IntN(256))
	}
	for i, c := range []struct {
		name, content string
		code          clip.Code
	}{
		{"a text", "1/30 sounds slow\n", clip.NotARecording},
		{"an M4A that ends at once", "\x00\x00\x00\x1cftypM4A \x00\x00\x02\x00M4A isom", clip.Damaged},
		{"noise as M4A", "\x00\x00\x00\x1cftypM4A \x00\x00\x02\x00M4A isomiso2" + string(noise), clip.Damaged},
		{"a box of 16 EiB", "\x00\x00\x00\x14ftypM4A \x00\x00\x02\x00M4A \x00\x00\x00\x01moov\x7f\xff\xff\xff\xff\xff\xff\xff" + string(noise), clip.Empty},
		{"noise as MP3", "ID3\x03\x00\x00\x00\x00\x00\x00" + string(noise), clip.Damaged},
		{"noise as FLAC", "fLaC\x00\x00\x00\x22" + string(noise), clip.FormatNotRead},
		{"noise as Ogg", "OggS" + strings.Repeat("\x00", 24) + "\x01vorbis" + string(noise), clip.Damaged},
		{"noise as Opus", "OggS" + strings.Repeat("\x00", 24) + "OpusHead" + string(noise), clip.Damaged},
		{"noise as WebM", "\x1a\x45\xdf\xa3" + string(noise), clip.Damaged},
		{"noise as CAF", "caff\x00\x01\x00\x00" + string(noise), clip.Damaged},
		{"noise as AAC", "\xff\xf1\x50\x80" + string(noise), clip.Damaged},
	} {
		if testing.Short() && i%3 > 0 {
			continue
		}
		if e := refused(t, save(t, "clip.m4a", []byte(c.content))); e == nil || e.Code != c.code {
			t.Errorf("%s: %v, want the code %s", c.name, e, c.code)
		} else if line := fmt.Sprint(e); strings.Contains(line, "\n") || e.Hint == "" {
			t.Errorf("%s: %q is no line with advice", c.name, line)
		}
	}
}
