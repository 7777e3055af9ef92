package dsp

import (
	"fmt"
	"io"
	"math/rand/v2"
	"testing"
)

// noiseSource is white noise at −60 dBFS with bursts so many times a second, without end in sight.
type noiseSource struct {
	format Format
	noise  []float64
	frames int64
	pos    int64
}

func newNoiseSource(rate, often int, frames int64) *noiseSource {
	rng := rand.New(rand.NewPCG(1, 2))
	noise := make([]float64, rate)
	for i := range noise {
		noise[i] = 0.001 * rng.NormFloat64()
		if i%(rate/often) < rate/200 {
			noise[i] *= 100
		}
	}
	return &noiseSource{format: Format{rate, 1}, noise: noise, frames: frames}
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
	for _, often := range []int{2, 20} {
		b.Run(fmt.Sprintf("%d sounds a second", often), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				h, err := Listen(newNoiseSource(rate, often, rate*seconds))
				if err != nil || len(h.Transients) < often*seconds*9/10 {
					b.Fatal(err, len(h.Transients))
				}
			}
			perSample(b, rate*seconds)
		})
	}
}
