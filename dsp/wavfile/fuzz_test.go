package wavfile

import (
	"io"
	"math"
	"testing"
)

// FuzzReader holds for any bytes: no panic, little memory, few reads, as many
// frames as promised, samples that are numbers, and the same ones at any place.
func FuzzReader(f *testing.F) {
	for _, v := range variants() {
		f.Add(v.file)
	}
	f.Add(riffWAV(mono16(), sized("LIST", 0xFFFFFFFF)))
	f.Add(riffWAV(sized("fmt ", 0xFFFFFFF0, plainBody(1, 1, 48000, 16, 2))))
	f.Add(formWAV("RF64", ds64(1<<62), mono16(), sized("data", 0xFFFFFFFF, pcm16())))
	f.Fuzz(func(t *testing.T, b []byte) {
		if bytes, reads := cost(b); bytes > 1<<20+100*uint64(len(b)) || reads > 100+len(b) {
			t.Fatalf("%d bytes allocated in %d reads of a file of %d", bytes, reads, len(b))
		}
		r, err := open(b)
		if err != nil {
			return
		}
		checkSamples(t, r)
	})
}

func checkSamples(t *testing.T, r *Reader) {
	channels := r.Format().Channels
	all, err := readAll(r, 7)
	if err != nil || int64(len(all)) != r.Frames()*int64(channels) {
		t.Fatalf("%d samples of %d frames, %v", len(all), r.Frames(), err)
	}
	for i, x := range all {
		if math.IsNaN(x) || math.Abs(x) > maxSample {
			t.Fatalf("sample %d is %v", i, x)
		}
	}
	middle := r.Frames() / 2
	piece := make([]float64, 5*channels)
	n, err := r.ReadFramesAt(piece, middle)
	if err != nil || n != int(min(5, r.Frames()-middle)) {
		t.Fatalf("ReadFramesAt(%d) = %d, %v of %d frames", middle, n, err, r.Frames())
	}
	for i := range piece[:n*channels] {
		if piece[i] != all[int(middle)*channels+i] {
			t.Fatalf("ReadFramesAt(%d) differs from ReadFrames", middle)
		}
	}
	if n, err := r.ReadFrames(piece); n != 0 || err != io.EOF {
		t.Fatalf("ReadFrames at the end = %d, %v", n, err)
	}
}
