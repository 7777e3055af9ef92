package clip

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"earshot/dsp"
	"earshot/dsp/wavfile"
)

var _ dsp.Source = (*Clip)(nil)

// wavOf is a plain 16-bit mono file at 48 kHz of the samples given.
func wavOf(samples ...int16) []byte {
	b := []byte("RIFF\x00\x00\x00\x00WAVEfmt \x10\x00\x00\x00" + // sizes of RIFF and fmt
		"\x01\x00\x01\x00" + // PCM, one channel
		"\x80\xbb\x00\x00\x00\x77\x01\x00" + // 48000 frames and 96000 bytes a second
		"\x02\x00\x10\x00data") // 2 bytes a frame, 16 bits
	b = binary.LittleEndian.AppendUint32(b, uint32(2*len(samples)))
	binary.LittleEndian.PutUint32(b[4:], uint32(len(b)-8+2*len(samples)))
	for _, s := range samples {
		b = binary.LittleEndian.AppendUint16(b, uint16(s))
	}
	return b
}

func write(t testing.TB, name string, b []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, b, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// readThrough reads c in blocks of 1000 frames.
func readThrough(c *Clip) ([]float64, error) {
	var all []float64
	buf := make([]float64, 1000*c.Format().Channels)
	for {
		n, err := c.ReadFrames(buf)
		all = append(all, buf[:n*c.Format().Channels]...)
		if err == io.EOF {
			return all, nil
		}
		if err != nil {
			return all, err
		}
	}
}

func TestAClipIsKnownByItsBytesNotByItsName(t *testing.T) {
	path := write(t, "corvane-105.m4a", wavOf(16384, -32768))
	c, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	got, err := readThrough(c)
	if err != nil || !cmp.Equal(got, []float64{0.5, -1}) {
		t.Errorf("samples %v, %v", got, err)
	}
	if c.Name() != path || c.Encoding() != "WAV, 16-bit PCM" || c.Frames() != 2 || c.Format() != (dsp.Format{Rate: 48000, Channels: 1}) {
		t.Errorf("got %q, %q, %d frames of %v", c.Name(), c.Encoding(), c.Frames(), c.Format())
	}
	at := make([]float64, 2)
	if n, err := c.ReadFramesAt(at, 1); n != 1 || err != nil || at[0] != -1 {
		t.Errorf("ReadFramesAt(1) = %d, %v, %v", n, err, at[0])
	}
}

func TestChecksumIsThatOfTheFileWhateverItsBytesMean(t *testing.T) {
	long := wavOf(make([]int16, 100000)...)
	for name, file := range map[string][]byte{
		"a plain file":           wavOf(1, 2, 3),
		"several blocks":         long,
		"a cut file":             long[:len(long)-33333],
		"a cut inside a sample":  wavOf(1, 2, 3)[:49],
		"bytes after the chunks": append(wavOf(1, 2, 3), bytes.Repeat([]byte{7, 0}, 99999)...),
	} {
		want := sha256.Sum256(file)
		for _, part := range []string{"nothing", "a little", "all"} {
			c, err := Open(write(t, "clip.wav", file))
			if err != nil {
				t.Fatal(err)
			}
			switch part {
			case "a little":
				_, err = c.ReadFrames(make([]float64, 2))
			case "all":
				_, err = readThrough(c)
			}
			sum, sumErr := c.SHA256()
			if err := errors.Join(err, sumErr, c.Close()); err != nil || sum != want {
				t.Errorf("%s, %s read: SHA256() = %x, %v, want %x", name, part, sum, err, want)
			}
		}
	}
}

func TestChecksumOfAClipReadThroughNeedsTheFileNoMore(t *testing.T) {
	file := wavOf(1, 2, 3)
	path := write(t, "clip.wav", file)
	c, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	if _, err := readThrough(c); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(path, 0); err != nil {
		t.Fatal(err)
	}
	if sum, err := c.SHA256(); err != nil || sum != sha256.Sum256(file) {
		t.Errorf("SHA256() = %x, %v", sum, err)
	}
}

func TestWarningsOfTheFileArePassedOn(t *testing.T) {
	c, err := Open(write(t, "clip.wav", wavOf(1, 2, 3)[:48]))
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	want := []Warning{{Code: wavfile.Truncated, Message: "the file is cut short: it holds 0.000 s of the 0.000 s its header states; read to the cut"}}
	if diff := cmp.Diff(want, c.Warnings()); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestWhatIsNoClipIsRefusedOnOneLine(t *testing.T) {
	t.Setenv("PATH", t.TempDir()) // without a decoder
	const getIt = `"make" builds both: put it beside earshot, or export the recording as WAV`
	const record = "record the shutter and export the recording as WAV"
	adpcm := wavOf(1, 2)
	adpcm[20] = 2
	for _, c := range []struct {
		name, content, want string
		code                Code
	}{
		{"an empty file", "", "the file is empty; record again, and see that the recorder saves the file before it is copied", Empty},
		{"a text", "1/30 sounds slow, 1/15 föhlt sich gut\n", "this is text, not a recording; " + record, NotARecording},
		{"a text that ends inside a character", "f\xc3", "this is text, not a recording; " + record, NotARecording},
		{"a picture", "\x89PNG\r\n\x1a\n", "this is no sound file that is known here; " + record, NotARecording},
		{"one byte", "\xff", "this is no sound file that is known here; " + record, NotARecording},
		{"an archive", "PK\x03\x04\x14\x00", "this is a ZIP archive; unpack it and name the clips in it", NotARecording},
		{"a voice memo", "\x00\x00\x00\x1cftypM4A \x00\x00\x00\x00", "this is M4A, and earshot-decode, the program that reads it, is not here; " + getIt, NoDecoder},
		{"a recording of a phone", "\x00\x00\x00\x18ftypmp42\x00\x00\x00\x00", "this is MP4, and earshot-decode, the program that reads it, is not here; " + getIt, NoDecoder},
		{"a film", "\x00\x00\x00\x14ftypqt  ", "this is MOV, and earshot-decode, the program that reads it, is not here; " + getIt, NoDecoder},
		{"a film without a type", "\x00\x00\x00\x08wide\x00\x00", "this is MOV, and earshot-decode, the program that reads it, is not here; " + getIt, NoDecoder},
		{"3GP", "\x00\x00\x00\x18ftyp3gp4", "this is 3GP, and earshot-decode, the program that reads it, is not here; " + getIt, NoDecoder},
		{"AMR", "#!AMR\n", "this is AMR, and earshot-decode, the program that reads it, is not here; " + getIt, NoDecoder},
		{"MP3 with a tag", "ID3\x03\x00", "this is MP3, and earshot-decode, the program that reads it, is not here; " + getIt, NoDecoder},
		{"MP3 without a tag", "\xff\xfb\x90\x64", "this is MP3, and earshot-decode, the program that reads it, is not here; " + getIt, NoDecoder},
		{"AAC", "\xff\xf1\x50\x80", "this is AAC, and earshot-decode, the program that reads it, is not here; " + getIt, NoDecoder},
		{"FLAC", "fLaC\x00\x00\x00\x22", "this is FLAC, and earshot-decode, the program that reads it, is not here; " + getIt, NoDecoder},
		{"Opus", "OggS" + strings.Repeat("\x00", 24) + "OpusHead", "this is Opus, and earshot-decode, the program that reads it, is not here; " + getIt, NoDecoder},
		{"Vorbis", "OggS" + strings.Repeat("\x00", 24) + "\x01vorbis", "this is Ogg Vorbis, and earshot-decode, the program that reads it, is not here; " + getIt, NoDecoder},
		{"CAF", "caff\x00\x01", "this is CAF, and earshot-decode, the program that reads it, is not here; " + getIt, NoDecoder},
		{"WebM", "\x1a\x45\xdf\xa3\x9f", "this is WebM, and earshot-decode, the program that reads it, is not here; " + getIt, NoDecoder},
		{"AIFF", "FORM\x00\x00\x00\x2eAIFF", "this is AIFF, and earshot-decode, the program that reads it, is not here; " + getIt, NoDecoder},
		{"WMA", "\x30\x26\xb2\x75\x8e\x66\xcf\x11", "this is WMA, which is not read; export it as 16-bit or 24-bit PCM WAV, in the recorder or a sound editor", FormatNotRead},
		{"AVI", "RIFF\x00\x00\x00\x2eAVI ", `not a WAV file: chunk "RIFF" at byte 8: found form "AVI ", allowed "WAVE"; export the recording as 16-bit or 24-bit PCM WAV`, FormatNotRead},
		{"ADPCM", string(adpcm), `a kind of WAV that is not read: chunk "fmt " at byte 12: found format 0x0002 (Microsoft ADPCM), allowed PCM, float, A-law or mu-law; export the recording as 16-bit or 24-bit PCM WAV`, UnsupportedWAV},
		{"a WAV header alone", string(wavOf(1)[:30]), `the WAV file is damaged: chunk "fmt " at byte 12: found a size of 16 bytes, allowed 10, which the file still holds; copy it again from the recorder, or export it anew as WAV`, DamagedWAV},
		{"a WAV without samples", string(wavOf()), `no sound in the file: chunk "data" at byte 36: found 0 bytes, allowed 2 or more, one frame; record again, and see that the recorder saves the file before it is copied`, Empty},
	} {
		path := write(t, "clip.wav", []byte(c.content))
		checkRefusal(t, c.name, path, Error{Code: c.code, Message: c.want})
	}
}

// checkRefusal wants Open to refuse path with the code, and with message and hint
// joined as in want.Message.
func checkRefusal(t *testing.T, name, path string, want Error) {
	t.Helper()
	c, err := Open(path)
	if err == nil {
		c.Close()
	}
	var got *Error
	if !errors.As(err, &got) {
		t.Errorf("%s: got %v, want an *Error", name, err)
		return
	}
	if got.Code != want.Code || got.File != path || err.Error() != path+": "+want.Message {
		t.Errorf("%s:\ngot  %s %s\nwant %s %s: %s", name, got.Code, err, want.Code, path, want.Message)
	}
}

func TestWhatIsNotThereOrNoFileIsRefused(t *testing.T) {
	dir := t.TempDir()
	file := write(t, "clip.wav", wavOf(1))
	checkRefusal(t, "a missing file", filepath.Join(dir, "gone.wav"), Error{Code: MissingFile, Message: "there is no such file; check the name and the folder"})
	checkRefusal(t, "a folder", dir, Error{Code: NotAFile, Message: "this is a folder; name the clips in it"})
	checkRefusal(t, "a name that no file can have", "a\x00b", Error{Code: Unreadable, Message: "the file cannot be opened: invalid argument; check the name and the folder"})
	link := filepath.Join(dir, "link.wav")
	if err := os.Symlink(file, link); err != nil {
		t.Skip("no symbolic links here")
	}
	if c, err := Open(link); err != nil {
		t.Errorf("a link to a clip: %v", err)
	} else {
		c.Close()
	}
}

func TestSystemErrorsBecomeAdvice(t *testing.T) {
	for _, c := range []struct {
		err  error
		code Code
		want string
	}{
		{&fs.PathError{Op: "open", Path: "x.wav", Err: fs.ErrPermission}, Unreadable, "x.wav: you may not read this file; change its permissions, or copy it to where you may read it"},
		{&fs.PathError{Op: "open", Path: "x.wav", Err: errors.New("too many open files")}, Unreadable, "x.wav: the file cannot be opened: too many open files; check the name and the folder"},
	} {
		var got *Error
		if err := openError("x.wav", c.err); !errors.As(err, &got) || got.Code != c.code || err.Error() != c.want || !errors.Is(err, c.err) {
			t.Errorf("openError(%v) = %v, want %s", c.err, err, c.want)
		}
	}
}

func TestAFileCutWhileItIsReadIsAnError(t *testing.T) {
	path := write(t, "clip.wav", wavOf(make([]int16, 100000)...))
	c, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	if err := os.Truncate(path, 1000); err != nil {
		t.Fatal(err)
	}
	_, readErr := readThrough(c)
	_, sumErr := c.SHA256()
	_, atErr := c.ReadFramesAt(make([]float64, 10), 50000)
	for name, err := range map[string]error{"ReadFrames": readErr, "SHA256": sumErr, "ReadFramesAt": atErr} {
		var got *Error
		if !errors.As(err, &got) || got.Code != Unreadable || got.File != path {
			t.Errorf("%s: got %v, want an *Error with code %s", name, err, Unreadable)
		}
	}
}

// FuzzOpen holds for any bytes: a clip whose checksum is right, or a refusal on
// one line with code and advice.
func FuzzOpen(f *testing.F) {
	f.Add(wavOf(1, 2, 3))
	f.Add(wavOf(1, 2, 3)[:47])
	f.Add([]byte("OggS" + strings.Repeat("\x00", 24) + "\x01vorbis"))
	f.Add([]byte("\x00\x00\x00\x1cftypM4A "))
	f.Add([]byte("text \xc3"))
	f.Add([]byte{0xFF})
	f.Setenv("PATH", f.TempDir()) // without a decoder
	path := filepath.Join(f.TempDir(), "clip.wav")
	f.Fuzz(func(t *testing.T, b []byte) {
		if err := os.WriteFile(path, b, 0o600); err != nil {
			t.Fatal(err)
		}
		c, err := Open(path)
		if err != nil {
			checkAdvice(t, err)
			return
		}
		defer c.Close()
		if _, err := readThrough(c); err != nil {
			t.Fatal(err)
		}
		if sum, err := c.SHA256(); err != nil || sum != sha256.Sum256(b) {
			t.Fatalf("SHA256() = %x, %v", sum, err)
		}
	})
}

func checkAdvice(t *testing.T, err error) {
	var e *Error
	if !errors.As(err, &e) || e.Code == "" || e.Message == "" || e.Hint == "" {
		t.Fatalf("a refusal without code or advice: %v", err)
	}
	for _, r := range e.Message + e.Hint {
		if r < ' ' || r > '~' {
			t.Fatalf("a refusal with %q in it: %q", r, err)
		}
	}
}

func ExampleOpen() {
	_, err := Open("corvane-105.wav")
	fmt.Println("earshot:", err)
	// Output: earshot: corvane-105.wav: there is no such file; check the name and the folder
}
