package align

import (
	"math"
	"testing"
)

// Strokes vary from shot to shot. Movements laid with their stops over each other have
// their starts apart, and starts that ring at one frequency are nearly as alike one cycle
// apart as they are in place: half of them laid so stay so against the mean of all.
func TestStartsThatLieACycleApartAreLaidOverEachOther(t *testing.T) {
	const cycle = 4.0 // samples
	ring := func(t float64) float64 {
		if t <= 0 {
			return 0
		}
		return math.Exp(-t/40) * (math.Sin(2*math.Pi*t/cycle) + 0.1*math.Sin(2*math.Pi*t/23))
	}
	at := instants(6)
	strays := func(i int) float64 { return cycle * (float64(i%2) - 0.5) }
	src := scene(0.0001, at, func(i int, t float64) float64 {
		return 0.05*ring(t) + 0.4*thud(t-340-strays(i), 1500, 3100, 5600)
	})
	m := locate(t, src, moved(at, func(int) float64 { return 340 }))
	for i := range at {
		if off := m.Start.At[i] - at[i]; math.Abs(off) > 1.5 {
			t.Errorf("start %d is %.2f samples off", i, off)
		}
	}
}
