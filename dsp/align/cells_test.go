package align

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/floats"

	"earshot/dsp"
)

func TestATonesPowerLiesInItsOctave(t *testing.T) {
	const rate = 48000
	for band, hz := range []float64{750, 1500, 3000, 6000, 12000} {
		t.Run(fmt.Sprintf("%g Hz", hz), func(t *testing.T) {
			x := make([]float64, rate/100)
			for i := range x {
				x[i] = math.Sin(2 * math.Pi * hz * float64(i) / rate)
			}
			for k, c := range sliced(x, rate) {
				if of := c[band] / floats.Sum(c[:]); of < 0.4 {
					t.Fatalf("cell %d has %.2f of its power in band %d: %v", k, of, band, c)
				}
			}
		})
	}
}

func TestWhatIsNotKnownOfASoundDiesAway(t *testing.T) {
	c := cells{{8, 8, 8, 8, 8}, {4, 2, 1, 1, 1}}.lasting(2 + int(math.Round(0.1/cellHop)))
	if c[0][0] != 8 || c[1][1] != 2 {
		t.Errorf("what is known became %v", c[:2])
	}
	last := c[len(c)-1]
	for b, was := range []float64{4, 2, 1, 1, 1} {
		if fell := 10 * math.Log10(was/last[b]); math.Abs(fell-dsp.Fading/10) > 0.01 {
			t.Errorf("in band %d it fell by %.2f dB in 0.1 s, want %d", b, fell, dsp.Fading/10)
		}
	}
}
