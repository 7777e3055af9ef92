package wavfile

import (
	"bytes"
	"errors"
	"io"
	"math"
	"os"
	"path/filepath"
	"testing"

	"pgregory.net/rapid"

	"earshot/dsp"
)

// memFile is a file in memory that can be sought in.
type memFile struct {
	b   []byte
	pos int
}

func (m *memFile) Write(p []byte) (int, error) {
	m.b = append(m.b[:m.pos], append(append([]byte(nil), p...), m.b[min(m.pos+len(p), len(m.b)):]...)...)
	m.pos += len(p)
	return len(p), nil
}

func (m *memFile) Seek(off int64, whence int) (int64, error) {
	base := map[int]int{io.SeekStart: 0, io.SeekCurrent: m.pos, io.SeekEnd: len(m.b)}
	m.pos = base[whence] + int(off)
	return int64(m.pos), nil
}

func TestWrittenFileIsByteForByteAPlainWAV(t *testing.T) {
	var m memFile
	w, err := NewWriter(&m, dsp.Format{Rate: 48000, Channels: 2})
	if err != nil {
		t.Fatal(err)
	}
	for _, block := range [][]float64{{-1, 1}, {}, {0.5, -0.5, 1.5 / 32768, -2}} {
		if err := w.WriteFrames(block); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	want := riffWAV(plain(1, 2, 48000, 16, 2), ck("data",
		le16(-32768), le16(32767), // full scale, the positive end clipped by one step
		le16(16384), le16(-16384),
		le16(2), le16(-32768), // a half step rounds away from zero; beyond full scale is clipped
	))
	if !bytes.Equal(m.b, want) {
		t.Errorf("got  %x\nwant %x", m.b, want)
	}
}

func TestWhatIsWrittenIsReadBackWithinHalfAStep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := dsp.Format{Rate: rapid.IntRange(8000, 384000).Draw(t, "rate"), Channels: rapid.IntRange(1, 64).Draw(t, "channels")}
		frames := rapid.IntRange(1, 40).Draw(t, "frames")
		x := rapid.SliceOfN(rapid.Float64Range(-1, 32767.0/32768), frames*f.Channels, frames*f.Channels).Draw(t, "samples")
		var m memFile
		w, err := NewWriter(&m, f)
		if err != nil {
			t.Fatal(err)
		}
		cut := rapid.IntRange(0, frames).Draw(t, "cut") * f.Channels
		if err := errors.Join(w.WriteFrames(x[:cut]), w.WriteFrames(x[cut:]), w.Close()); err != nil {
			t.Fatal(err)
		}
		r, err := open(m.b)
		if err != nil {
			t.Fatal(err)
		}
		got, err := readAll(r, rapid.IntRange(1, 50).Draw(t, "block"))
		if err != nil || len(got) != len(x) || r.Format() != f || len(r.Warnings()) > 0 {
			t.Fatalf("read %d samples of %v, %v, %v, want %d of %v", len(got), r.Format(), r.Warnings(), err, len(x), f)
		}
		for i := range x {
			if math.Abs(got[i]-x[i]) > 0.5/32768 {
				t.Fatalf("sample %d: wrote %v, read %v", i, x[i], got[i])
			}
		}
	})
}

func TestAWrittenFileOnDiskOfSeveralBlocks(t *testing.T) {
	path := filepath.Join(t.TempDir(), "ramp.wav")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	w, err := NewWriter(f, dsp.Format{Rate: 96000, Channels: 3})
	if err != nil {
		t.Fatal(err)
	}
	x := make([]float64, 3*40000)
	for i := range x {
		x[i] = float64(i%65536-32768) / 32768
	}
	if err := errors.Join(w.WriteFrames(x), w.Close(), f.Close()); err != nil {
		t.Fatal(err)
	}
	file, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	r, err := open(file)
	if err != nil {
		t.Fatal(err)
	}
	got, err := readAll(r, 4096)
	if err != nil || len(got) != len(x) {
		t.Fatalf("read %d samples, %v, want %d", len(got), err, len(x))
	}
	for i := range x {
		if got[i] != x[i] {
			t.Fatalf("sample %d: wrote %v, read %v", i, x[i], got[i])
		}
	}
}

func TestWhatCannotBeWrittenIsRefused(t *testing.T) {
	for name, f := range map[string]dsp.Format{
		"rate 0": {Channels: 1}, "no channels": {Rate: 48000}, "65 channels": {Rate: 48000, Channels: 65}, "a rate beyond 384 kHz": {Rate: 384001, Channels: 1},
	} {
		if _, err := NewWriter(&memFile{}, f); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	w, err := NewWriter(&memFile{}, dsp.Format{Rate: 48000, Channels: 1})
	if err != nil {
		t.Fatal(err)
	}
	if err := w.WriteFrames([]float64{0, math.NaN()}); err == nil {
		t.Error("a sample that is not a number: no error")
	}
	w.bytes = maxDataBytes - 1
	if err := w.WriteFrames([]float64{0}); err == nil {
		t.Error("beyond 4 GiB: no error")
	}
}
