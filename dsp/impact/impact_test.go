package impact

import "testing"

func BenchmarkMake(b *testing.B) {
	for _, k := range Kinds() {
		b.Run(k, func(b *testing.B) {
			for i := range b.N {
				r, _ := Make(k, uint64(i))
				b.ReportMetric(float64(len(r.Channels[0]))/float64(r.Rate), "clip-s")
			}
		})
	}
}
