package wavfile

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"io"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"earshot/dsp"
)

var _ dsp.Source = (*Reader)(nil)

func TestEveryKindOfFileGivesItsSamplesBitForBit(t *testing.T) {
	for _, v := range variants() {
		t.Run(v.name, func(t *testing.T) {
			r, err := open(v.file)
			if err != nil {
				t.Fatal(err)
			}
			if got, want := r.Format(), (dsp.Format{Rate: v.rate, Channels: v.channels}); got != want {
				t.Errorf("Format() = %v, want %v", got, want)
			}
			if r.Encoding() != v.encoding {
				t.Errorf("Encoding() = %q, want %q", r.Encoding(), v.encoding)
			}
			if want := int64(len(v.want) / v.channels); r.Frames() != want {
				t.Errorf("Frames() = %d, want %d", r.Frames(), want)
			}
			got, err := readAll(r, 2)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(v.want, got); diff != "" {
				t.Errorf("samples (-want +got):\n%s", diff)
			}
			if diff := cmp.Diff(v.warnings, codes(r)); diff != "" {
				t.Errorf("warnings (-want +got):\n%s", diff)
			}
		})
	}
}

func codes(r *Reader) []WarningCode {
	var list []WarningCode
	for _, w := range r.Warnings() {
		list = append(list, w.Code)
	}
	return list
}

func TestAReaderThatGivesFewBytesACallLosesNothing(t *testing.T) {
	for _, v := range variants() {
		for _, n := range []int{1, 3, 5} {
			r, err := NewReader(stingy{v.file, n}, int64(len(v.file)), "clip.wav")
			if err != nil {
				t.Fatalf("%s, %d bytes a call: %v", v.name, n, err)
			}
			got, err := readAll(r, 3)
			if err != nil || !cmp.Equal(v.want, got) {
				t.Errorf("%s, %d bytes a call: got %v, %v, want %v", v.name, n, got, err, v.want)
			}
		}
	}
}

// ramp is a stereo clip longer than several blocks, in which frame i holds i mod
// 30011 on the left and its negative on the right.
func ramp(frames int) []byte {
	data := make([]byte, 0, 4*frames)
	for i := range frames {
		data = append(data, le16(i%30011)...)
		data = append(data, le16(-(i % 30011))...)
	}
	return riffWAV(ck("LIST", []byte("odd")), plain(1, 2, 96000, 16, 2), ck("data", data), ck("id3 ", []byte("tail")))
}

func TestReadingElsewhereDoesNotDisturbReadingOn(t *testing.T) {
	const frames = 50000
	r, err := open(ramp(frames))
	if err != nil {
		t.Fatal(err)
	}
	at := func(i int) float64 { return float64(i%30011) / 32768 }
	buf, other := make([]float64, 2*777), make([]float64, 2*20000)
	for next := 0; next < frames; {
		n, err := r.ReadFrames(buf)
		if err != nil || n != min(777, frames-next) {
			t.Fatalf("ReadFrames at %d = %d, %v", next, n, err)
		}
		if buf[0] != at(next) || buf[2*n-1] != -at(next+n-1) {
			t.Fatalf("frames from %d on are not those of the file", next)
		}
		next += n
		from := (next * 7) % frames
		n, err = r.ReadFramesAt(other, int64(from))
		if err != nil || n != min(20000, frames-from) {
			t.Fatalf("ReadFramesAt(%d) = %d, %v", from, n, err)
		}
		for i := range n {
			if other[2*i] != at(from+i) || other[2*i+1] != -at(from+i) {
				t.Fatalf("ReadFramesAt(%d) frame %d = %v", from, i, other[2*i:2*i+2])
			}
		}
	}
	if n, err := r.ReadFrames(buf); n != 0 || err != io.EOF {
		t.Errorf("ReadFrames at the end = %d, %v, want 0, EOF", n, err)
	}
}

func TestReadingAtTheEdgesOfTheClip(t *testing.T) {
	for _, c := range []struct {
		name  string
		frame int64
		n     int
		fails bool
	}{
		{"the last frame alone", 3, 1, false},
		{"just behind the end", 4, 0, false},
		{"far behind the end", math.MaxInt64, 0, false},
		{"before the start", -1, 0, true},
	} {
		r, err := open(riffWAV(mono16(), ck("data", pcm16())))
		if err != nil {
			t.Fatal(err)
		}
		n, err := r.ReadFramesAt(make([]float64, 2), c.frame)
		if n != c.n || (err != nil) != c.fails {
			t.Errorf("%s: ReadFramesAt(%d) = %d, %v", c.name, c.frame, n, err)
		}
	}
}

func TestEveryByteIsCopiedInOrderWhileReading(t *testing.T) {
	files := map[string][]byte{"several blocks": ramp(50000)}
	for _, v := range variants() {
		files[v.name] = v.file
	}
	for name, file := range files {
		r, err := open(file)
		if err != nil {
			t.Fatal(err)
		}
		h := sha256.New()
		r.CopyTo(h)
		if _, err := readAll(r, 1000); err != nil {
			t.Fatal(err)
		}
		if want := sha256.Sum256(file); !bytes.Equal(h.Sum(nil), want[:]) {
			t.Errorf("%s: the bytes copied are not those of the file", name)
		}
	}
}

func TestSamplesThatAreNoNumberBecomeZeroAndAreCounted(t *testing.T) {
	inf := math.Inf(1)
	for name, file := range map[string][]byte{
		"32 bits": riffWAV(plain(3, 1, 48000, 32, 4), ck("data", f32(0.25), f32(math.NaN()), f32(inf), f32(-inf), f32(1e30), f32(-1<<31))),
		"64 bits": riffWAV(plain(3, 1, 48000, 64, 8), ck("data", f64(0.25), f64(math.NaN()), f64(inf), f64(-inf), f64(-1e300), f64(-1<<31))),
	} {
		r, err := open(file)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := r.ReadFramesAt(make([]float64, 6), 0); err != nil || len(r.Warnings()) != 0 {
			t.Errorf("%s: looking at samples counts them: %v, %v", name, r.Warnings(), err)
		}
		got, err := readAll(r, 4)
		if diff := cmp.Diff([]float64{0.25, 0, 0, 0, 0, -1 << 31}, got); diff != "" || err != nil {
			t.Errorf("%s: %v (-want +got):\n%s", name, err, diff)
		}
		want := []Warning{{NonFiniteSample, "4 of 6 samples are no usable number and were set to 0"}}
		if diff := cmp.Diff(want, r.Warnings()); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}

// shrinking is a file that lost its end after it was opened.
type shrinking struct{ *bytes.Reader }

func (s shrinking) ReadAt(p []byte, off int64) (int, error) {
	if off+int64(len(p)) > 60000 {
		return 0, io.EOF
	}
	return s.Reader.ReadAt(p, off)
}

func TestAFileThatShrinksWhileReadGivesItsFramesThenAnError(t *testing.T) {
	file := riffWAV(plain(1, 64, 48000, 16, 2), ck("data", make([]byte, 200000)))
	r, err := NewReader(bytes.NewReader(file), int64(len(file)), "clip.wav")
	if err != nil {
		t.Fatal(err)
	}
	r.file.r = shrinking{bytes.NewReader(file)}
	if _, err = readAll(r, 10); !errors.Is(err, ErrRead) || !errors.Is(err, io.EOF) {
		t.Errorf("got %v, want ErrRead for its end", err)
	}
	if _, err := r.ReadFramesAt(make([]float64, 64), 1500); !errors.Is(err, ErrRead) {
		t.Errorf("ReadFramesAt: got %v, want ErrRead", err)
	}
}

func TestAPieceOfAFrameIsAProgrammingError(t *testing.T) {
	r, err := open(ramp(10))
	if err != nil {
		t.Fatal(err)
	}
	defer func() {
		if recover() == nil {
			t.Error("no panic for 3 samples of 2 channels")
		}
	}()
	_, _ = r.ReadFrames(make([]float64, 3))
}
