package align

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// noiseIn is the noise of every band here.
var noiseIn = [cellBands]float64{1, 1, 1, 1, 1}

// dying is a movement that is loudest in one band and dies away, 30 dB over the noise.
func dying(loudest int, hops float64) cells {
	c := make(cells, 40)
	for k := range c {
		for b := range c[k] {
			c[k][b] = 1000 * math.Exp(-float64(k)/hops) * math.Pow(4, -math.Abs(float64(b-loudest)))
		}
	}
	return c
}

// sounding is noise, and movements in it, as many hops after the start as said and as
// many dB louder than they are.
func sounding(n int, movements []cells, parts []component) cells {
	x := make(cells, n)
	for k := range x {
		x[k] = noiseIn
		for i, c := range movements {
			if at := k - parts[i].at; at >= 0 {
				for b := range x[k] {
					x[k][b] += math.Pow(10, parts[i].gain/10) * c.lasting(n)[at][b]
				}
			}
		}
	}
	return x
}

func TestTwoPartsOfAMixtureAreFoundWhereTheyAre(t *testing.T) {
	opening, closing := dying(0, 6), dying(4, 8)
	rapid.Check(t, func(rt *rapid.T) {
		first := component{rapid.IntRange(10, 30).Draw(rt, "at"), rapid.Float64Range(-4, 4).Draw(rt, "first, dB")}
		second := component{first.at + rapid.IntRange(8, 30).Draw(rt, "lag"), rapid.Float64Range(-4, 4).Draw(rt, "second, dB")}
		m := newMixture(sounding(100, []cells{opening, closing}, []component{first, second}), noiseIn, opening, closing)
		a, b, left := m.two(4, 40)
		if a.at != first.at || b.at != second.at || math.Abs(a.gain-first.gain) > 1 || math.Abs(b.gain-second.gain) > 1 {
			rt.Fatalf("found %+v and %+v, want %+v and %+v", a, b, first, second)
		}
		if alone := m.alone(); !m.needsTwo(alone, left) {
			rt.Fatalf("one leaves %.1f and both %.1f, which is not found to need two", alone, left)
		}
	})
}

func TestOnePartNeedsNoOther(t *testing.T) {
	opening, closing := dying(1, 6), dying(3, 8)
	for name, only := range map[string]cells{"an opening": opening, "a closing": closing} {
		t.Run(name, func(t *testing.T) {
			m := newMixture(sounding(100, []cells{only}, []component{{20, 2}}), noiseIn, opening, closing)
			if _, _, both := m.two(4, 40); m.needsTwo(m.alone(), both) {
				t.Errorf("one leaves %.1f and both %.1f", m.alone(), both)
			}
		})
	}
}

func TestHowLoudARecordingIsChangesNothingThatIsLeft(t *testing.T) {
	opening, closing := dying(1, 6), dying(3, 8)
	a, b := component{20, 0}, component{31, 1}
	left := func(scale float64) float64 {
		scaled := func(c cells) cells {
			out := make(cells, len(c))
			for k := range c {
				for b := range c[k] {
					out[k][b] = scale * c[k][b]
				}
			}
			return out
		}
		noise := scaled(cells{noiseIn})[0]
		x := scaled(sounding(100, []cells{opening, closing}, []component{{21, 2}, {30, -1}}))
		return newMixture(x, noise, scaled(opening), scaled(closing)).left(a, b)
	}
	if one, other := left(1), left(1e-6); math.Abs(one-other) > 1e-6*one {
		t.Errorf("%.6f is left, and %.6f of the same a thousand times softer", one, other)
	}
}
