package wavfile

import (
	"bytes"
	"io"
	"testing"

	"earshot/dsp"
)

// BenchmarkReadFrames reads a minute of one channel in blocks of 4096 frames, as
// listening does.
func BenchmarkReadFrames(b *testing.B) {
	const samples = 60 * 48000
	for _, c := range []struct {
		name             string
		tag, bits, width int
	}{
		{"pcm8", 1, 8, 1}, {"pcm16", 1, 16, 2}, {"pcm24", 1, 24, 3}, {"pcm32", 1, 32, 4},
		{"float32", 3, 32, 4}, {"float64", 3, 64, 8}, {"alaw", 6, 8, 1}, {"mulaw", 7, 8, 1},
	} {
		file := riffWAV(plain(c.tag, 1, 48000, c.bits, c.width), ck("data", make([]byte, samples*c.width)))
		b.Run(c.name, func(b *testing.B) {
			buf := make([]float64, 4096)
			b.ReportAllocs()
			for b.Loop() {
				r, err := NewReader(bytes.NewReader(file), int64(len(file)), "clip.wav")
				if err != nil {
					b.Fatal(err)
				}
				for err == nil {
					_, err = r.ReadFrames(buf)
				}
				if err != io.EOF {
					b.Fatal(err)
				}
			}
			perSample(b, samples)
		})
	}
}

func BenchmarkWriteFrames(b *testing.B) {
	x := make([]float64, 48000)
	b.ReportAllocs()
	for b.Loop() {
		var m memFile
		m.b = make([]byte, 0, 100000)
		w, err := NewWriter(&m, dsp.Format{Rate: 48000, Channels: 1})
		if err != nil {
			b.Fatal(err)
		}
		if err := w.WriteFrames(x); err != nil {
			b.Fatal(err)
		}
	}
	perSample(b, len(x))
}

func perSample(b *testing.B, samples int) {
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(samples), "ns/sample")
}
