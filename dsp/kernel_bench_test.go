package dsp

import (
	"testing"

	"earshot/dsp/internal/num"
)

// perSample reports the time of a kernel that takes n samples at a time.
func perSample(b *testing.B, n int) {
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/sample")
}

func BenchmarkHighpass(b *testing.B) {
	x := bursts(48000, blockFrames, 0.001, 1000)
	y := make([]float64, len(x))
	f := newHighpass(48000)
	b.ReportAllocs()
	for b.Loop() {
		f.filter(y, x, 0, 1)
	}
	perSample(b, len(x))
}

// The trigger takes a hop at a time, of 24 samples at 48 kHz.
func BenchmarkTrigger(b *testing.B) {
	const hop, hops = 24, 4000
	x := bursts(48000, hop*hops, 0.001, 24000, 60000)
	energies := make([]float64, hops)
	for i := range energies {
		energies[i] = num.MeanSquare(x[i*hop : (i+1)*hop])
	}
	var t trigger
	t.start(energies[0])
	b.ReportAllocs()
	for b.Loop() {
		for _, e := range energies {
			t.push(e)
		}
	}
	perSample(b, hop*hops)
}

func BenchmarkPick(b *testing.B) {
	x := bursts(48000, 312, 0.001, 192)
	p := newPicker(len(x))
	b.ReportAllocs()
	for b.Loop() {
		if _, _, ok := p.pick(x); !ok {
			b.Fatal("no onset")
		}
	}
	perSample(b, len(x))
}

func BenchmarkSpectrum(b *testing.B) {
	s := newSpectrometer(48000)
	x := bursts(48000, s.len(), 0.001, 0)
	b.ReportAllocs()
	for b.Loop() {
		s.measure(x, x)
	}
	perSample(b, len(x))
}
