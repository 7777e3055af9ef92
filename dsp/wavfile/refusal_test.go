package wavfile

import (
	"bytes"
	"errors"
	"os"
	"runtime"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestRefusalsSayWhereWhatAndWhatIsAllowed(t *testing.T) {
	data := ck("data", pcm16())
	badGUID := extensible(1, 1, 48000, 16, 16)
	badGUID[len(badGUID)-1] = 0x70
	for _, c := range []struct {
		name string
		file []byte
		want Error // without File, Hint and Cause
	}{
		{"an empty file", nil, Error{Kind: ErrEmpty, Found: "a file of 0 bytes"}},
		{"text", []byte("dear customer,\n"), Error{Kind: ErrNotWAV, Found: `"dear"`, Allowed: `"RIFF", "RF64" or "BW64"`}},
		{"two bytes", []byte("RI"), Error{Kind: ErrNotWAV, Found: `"RI"`, Allowed: `"RIFF", "RF64" or "BW64"`}},
		{"a header of 7 bytes", []byte("RIFF\x24\x00\x00"), Error{Kind: ErrDamaged, Offset: 7, Found: "the end of the file inside its header"}},
		{"an AVI film", append([]byte("RIFF\x24\x00\x00\x00AVI "), data...), Error{Kind: ErrNotWAV, Chunk: "RIFF", Offset: 8, Found: `form "AVI "`, Allowed: `"WAVE"`}},
		{"a big-endian file", formWAV("RIFX", mono16(), data), Error{Kind: ErrUnsupported, Found: `"RIFX" (big-endian)`, Allowed: `"RIFF", "RF64" or "BW64"`}},
		{"a Wave64 file", []byte("riff\x2e\x91\xcf\x11\xa5\xd6\x28\xdb\x04\xc1\x00\x00"), Error{Kind: ErrUnsupported, Found: `"riff" (Wave64)`, Allowed: `"RIFF", "RF64" or "BW64"`}},
		{"no chunk at all", riffWAV(), Error{Kind: ErrDamaged, Offset: 12, Found: `no "fmt " chunk up to here`, Allowed: `one "fmt " and one "data" chunk`}},
		{"no format", riffWAV(data), Error{Kind: ErrDamaged, Offset: 28, Found: `no "fmt " chunk up to here`, Allowed: `one "fmt " and one "data" chunk`}},
		{"no samples", riffWAV(mono16()), Error{Kind: ErrDamaged, Offset: 36, Found: `no "data" chunk up to here`, Allowed: `one "fmt " and one "data" chunk`}},
		{"samples of 0 bytes", riffWAV(mono16(), ck("data")), Error{Kind: ErrEmpty, Chunk: "data", Offset: 36, Found: "0 bytes", Allowed: "2 or more, one frame"}},
		{"samples of 0 bytes, then a LIST", riffWAV(mono16(), ck("data"), ck("LIST", pcm16())), Error{Kind: ErrEmpty, Chunk: "data", Offset: 36, Found: "0 bytes", Allowed: "2 or more, one frame"}},
		{"RF64 of unknown length without samples", formWAV("RF64", mono16(), sized("data", 0xFFFFFFFF)), Error{Kind: ErrEmpty, Chunk: "data", Offset: 36, Found: "0 bytes", Allowed: "2 or more, one frame"}},
		{"a piece of a frame", riffWAV(plain(1, 2, 48000, 16, 2), ck("data", []byte{1, 2, 3})), Error{Kind: ErrEmpty, Chunk: "data", Offset: 36, Found: "3 bytes", Allowed: "4 or more, one frame"}},
		{"a format of 14 bytes", riffWAV(ck("fmt ", plainBody(1, 1, 48000, 16, 2)[:14]), data), Error{Kind: ErrDamaged, Chunk: "fmt ", Offset: 12, Found: "a size of 14 bytes", Allowed: "16 or more"}},
		{"a format of 4 GiB", riffWAV(sized("fmt ", 0xFFFFFFF0, plainBody(1, 1, 48000, 16, 2)), data), Error{Kind: ErrDamaged, Chunk: "fmt ", Offset: 12, Found: "a size of 4294967280 bytes", Allowed: "32, which the file still holds"}},
		{"a LIST of 4 GiB before the samples", riffWAV(mono16(), sized("LIST", 0xFFFFFFFF, pcm16())), Error{Kind: ErrDamaged, Chunk: "LIST", Offset: 36, Found: "a size of 4294967295 bytes", Allowed: "8, which the file still holds"}},
		{"a ds64 of 8 bytes", formWAV("RF64", ck("ds64", le64(0)), mono16(), data), Error{Kind: ErrDamaged, Chunk: "ds64", Offset: 12, Found: "a size of 8 bytes", Allowed: "28 or more"}},
		{"rate 0", riffWAV(plain(1, 1, 0, 16, 2), data), Error{Kind: ErrUnsupported, Chunk: "fmt ", Offset: 12, Found: "0 Hz", Allowed: "8000 to 384000 Hz"}},
		{"rate FFFFFFFF", riffWAV(plain(1, 1, 0xFFFFFFFF, 16, 2), data), Error{Kind: ErrUnsupported, Chunk: "fmt ", Offset: 12, Found: "4294967295 Hz", Allowed: "8000 to 384000 Hz"}},
		{"no channels", riffWAV(plain(1, 0, 48000, 16, 2), data), Error{Kind: ErrUnsupported, Chunk: "fmt ", Offset: 12, Found: "0 channels", Allowed: "1 to 64"}},
		{"65 channels", riffWAV(plain(1, 65, 48000, 16, 2), data), Error{Kind: ErrUnsupported, Chunk: "fmt ", Offset: 12, Found: "65 channels", Allowed: "1 to 64"}},
		{"frames of 0 bytes", riffWAV(plain(1, 1, 48000, 16, 0), data), Error{Kind: ErrDamaged, Chunk: "fmt ", Offset: 12, Found: "frame size 0 bytes, channels 1", Allowed: "a whole number of bytes for each channel"}},
		{"0 bits", riffWAV(plain(1, 1, 48000, 0, 1), data), Error{Kind: ErrUnsupported, Chunk: "fmt ", Offset: 12, Found: "0-bit PCM in 1-byte containers", Allowed: "1 to 8 bits in 1 byte, 9 to 32 bits in 2 to 4 bytes"}},
		{"64-bit PCM", riffWAV(plain(1, 1, 48000, 64, 8), data), Error{Kind: ErrUnsupported, Chunk: "fmt ", Offset: 12, Found: "64-bit PCM in 8-byte containers", Allowed: "1 to 8 bits in 1 byte, 9 to 32 bits in 2 to 4 bytes"}},
		{"24 bits in 2 bytes", riffWAV(plain(1, 1, 48000, 24, 2), data), Error{Kind: ErrUnsupported, Chunk: "fmt ", Offset: 12, Found: "24-bit PCM in 2-byte containers", Allowed: "1 to 8 bits in 1 byte, 9 to 32 bits in 2 to 4 bytes"}},
		{"16-bit float", riffWAV(plain(3, 1, 48000, 16, 2), data), Error{Kind: ErrUnsupported, Chunk: "fmt ", Offset: 12, Found: "16-bit float in 2-byte containers", Allowed: "32 bits in 4 bytes or 64 bits in 8"}},
		{"16-bit A-law", riffWAV(plain(6, 1, 48000, 16, 2), data), Error{Kind: ErrUnsupported, Chunk: "fmt ", Offset: 12, Found: "16-bit A-law in 2-byte containers", Allowed: "8 bits in 1 byte"}},
		{"ADPCM", riffWAV(plain(2, 1, 48000, 4, 1), data), Error{Kind: ErrUnsupported, Chunk: "fmt ", Offset: 12, Found: "format 0x0002 (Microsoft ADPCM)", Allowed: "PCM, float, A-law or mu-law"}},
		{"a format nobody knows", riffWAV(plain(0x7A21, 1, 48000, 16, 2), data), Error{Kind: ErrUnsupported, Chunk: "fmt ", Offset: 12, Found: "format 0x7A21", Allowed: "PCM, float, A-law or mu-law"}},
		{"an extensible format cut to 18 bytes", riffWAV(ck("fmt ", plainBody(0xFFFE, 1, 48000, 16, 2), le16(0)), data), Error{Kind: ErrDamaged, Chunk: "fmt ", Offset: 12, Found: "a size of 18 bytes", Allowed: "40 or more for the extensible form"}},
		{"a sub-format that is no format tag", riffWAV(badGUID, data), Error{Kind: ErrUnsupported, Chunk: "fmt ", Offset: 12, Found: "sub-format 0100000000001000800000aa00389b70", Allowed: "PCM, float, A-law or mu-law"}},
		{"17 valid bits of 16", riffWAV(extensible(1, 1, 48000, 16, 17), data), Error{Kind: ErrDamaged, Chunk: "fmt ", Offset: 12, Found: "17 valid bits of 16", Allowed: "1 to 16"}},
		{"nothing but empty chunks", riffWAV(bytes.Repeat(ck("JUNK"), 10000)), Error{Kind: ErrDamaged, Offset: 12 + 8*4096, Found: `no "fmt " chunk up to here`, Allowed: `one "fmt " and one "data" chunk`}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := open(c.file)
			var got *Error
			if !errors.As(err, &got) || !errors.Is(err, c.want.Kind) {
				t.Fatalf("got %v, want a %v", err, c.want.Kind)
			}
			if got.File != "clip.wav" || got.Hint == "" || strings.ContainsAny(err.Error(), "\n\r\x1b") {
				t.Errorf("no one-line error with file and hint: %q", err)
			}
			bare := *got
			bare.File, bare.Hint = "", ""
			if diff := cmp.Diff(c.want, bare, cmp.Comparer(func(a, b error) bool { return a == b })); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

func TestARefusalReadsAsOneSentence(t *testing.T) {
	_, err := open(riffWAV(plain(2, 1, 48000, 4, 1), ck("data", pcm16())))
	const want = `clip.wav: a kind of WAV that is not read: chunk "fmt " at byte 12: found format 0x0002 (Microsoft ADPCM), ` +
		`allowed PCM, float, A-law or mu-law; export the recording as 16-bit or 24-bit PCM WAV`
	if err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
}

// broken is a disk that fails at a place.
type broken struct {
	*bytes.Reader
	from int64
}

func (b broken) ReadAt(p []byte, off int64) (int, error) {
	if off+int64(len(p)) > b.from {
		return 0, os.ErrPermission
	}
	return b.Reader.ReadAt(p, off)
}

func TestAFailingDiskIsReportedWhereverItFails(t *testing.T) {
	file := riffWAV(ds64(8), mono16(), ck("data", pcm16()))
	copy(file, "RF64")
	for from := range len(file) {
		r, err := NewReader(broken{bytes.NewReader(file), int64(from)}, int64(len(file)), "clip.wav")
		if err == nil {
			_, err = readAll(r, 10)
		}
		if !errors.Is(err, ErrRead) || !errors.Is(err, os.ErrPermission) {
			t.Errorf("failing from byte %d: got %v", from, err)
		}
	}
}

func TestACutAtEveryByteGivesAnErrorOrTheSamplesBeforeIt(t *testing.T) {
	for _, v := range variants() {
		for n := range v.file {
			r, err := open(v.file[:n])
			if err != nil {
				continue
			}
			got, err := readAll(r, 10)
			if err != nil || len(got) > len(v.want) || !cmp.Equal(v.want[:len(got)], got) {
				t.Errorf("%s cut to %d bytes: got %v, %v, want the start of %v", v.name, n, got, err, v.want)
			}
			if len(got) < len(v.want) && len(r.Warnings()) == 0 && v.warnings == nil {
				t.Errorf("%s cut to %d bytes lost samples without a warning", v.name, n)
			}
		}
	}
}

// TestLyingSizesCostNothing holds reads and memory for files of under 200 bytes
// that claim up to 2^63.
func TestLyingSizesCostNothing(t *testing.T) {
	for _, id := range []string{"fmt ", "data", "LIST", "smpl", "bext", "ds64", "fact", "RIFF"} {
		for _, size := range []int{0x7FFFFFFF, 0x7FFFF000, 0x80000001, 0xFFFFFFF0, 0xFFFFFFFF} {
			for _, file := range [][]byte{
				riffWAV(sized(id, size), mono16(), ck("data", pcm16())),
				riffWAV(mono16(), sized(id, size), ck("data", pcm16())),
				riffWAV(mono16(), ck("data", pcm16()), sized(id, size)),
				formWAV("RF64", ds64(1<<62), mono16(), sized(id, size, pcm16())),
			} {
				if bytes, reads := cost(file); bytes > 1<<20 || reads > len(file) {
					t.Errorf("%s of %d: %d bytes allocated in %d reads", id, size, bytes, reads)
				}
			}
		}
	}
}

// cost opens and reads file, whatever comes of it, and returns the bytes that this
// allocates and how many reads of the file it takes.
func cost(file []byte) (allocated uint64, reads int) {
	var before, after runtime.MemStats
	in := &counted{Reader: bytes.NewReader(file)}
	runtime.ReadMemStats(&before)
	if r, err := NewReader(in, int64(len(file)), "clip.wav"); err == nil {
		_, _ = readAll(r, 10)
	}
	runtime.ReadMemStats(&after)
	return after.TotalAlloc - before.TotalAlloc, in.reads
}

// counted counts how often it is read.
type counted struct {
	*bytes.Reader
	reads int
}

func (c *counted) ReadAt(p []byte, at int64) (int, error) {
	c.reads++
	return c.Reader.ReadAt(p, at)
}
