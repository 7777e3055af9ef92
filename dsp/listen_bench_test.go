package dsp

import (
	"io"
	"math/rand/v2"
	"testing"
)

// noiseSource is white noise at −60 dBFS with a burst twice a second, without end in sight.
type noiseSource struct {
	format Format
	noise  []float64
	frames int64
	pos    int64
}

func newNoiseSource(rate, channels int, frames int64) *noiseSource {
	rng := rand.New(rand.NewPCG(1, 2))
	noise := make([]float64, rate*channels)
	for i := range noise {
		noise[i] = 0.001 * rng.NormFloat64()
		if p := i / channels % (rate / 2); p < rate/200 {
			noise[i] *= 100
		}
	}
	return &noiseSource{format: Format{rate, channels}, noise: noise, frames: frames}
}

func (s *noiseSource) Format() Format { return s.format }

func (s *noiseSource) ReadFrames(dst []float64) (int, error) {
	n := min(int64(len(dst)/s.format.Channels), s.frames-s.pos)
	if n == 0 {
		return 0, io.EOF
	}
	at := int(s.pos*int64(s.format.Channels)) % len(s.noise)
	for done := 0; done < int(n)*s.format.Channels; {
		c := copy(dst[done:int(n)*s.format.Channels], s.noise[at:])
		done += c
		at = 0
	}
	s.pos += n
	return int(n), nil
}

func (s *noiseSource) ReadFramesAt([]float64, int64) (int, error) { return 0, io.EOF }

func BenchmarkListen(b *testing.B) {
	const rate, seconds = 48000, 60
	b.ReportAllocs()
	for b.Loop() {
		src := newNoiseSource(rate, 1, rate*seconds)
		h, err := Listen(src)
		if err != nil || len(h.Transients) < 2*seconds-2 {
			b.Fatal(err, len(h.Transients))
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/rate/seconds, "ns/sample")
}
