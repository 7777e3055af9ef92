package align

import (
	"math"
	"math/rand/v2"
	"testing"
)

// hiss is noise of its own for each sound i, of an RMS of 1 from t = 0 on, in
// samples, for so long.
func hiss(length int) func(i int, t float64) float64 {
	rng := rand.New(rand.NewPCG(51, 52))
	drawn := map[int][]float64{}
	return func(i int, t float64) float64 {
		if drawn[i] == nil {
			for range length {
				drawn[i] = append(drawn[i], rng.NormFloat64())
			}
		}
		if t < 0 || int(t) >= length {
			return 0
		}
		return drawn[i][int(t)]
	}
}

// What a codec spreads before a sound is noise that is new each time; what comes
// before the stop of a movement is the same each time.
func TestOnlyWhatIsTheSameEachTimeIsAPart(t *testing.T) {
	const lead = 192 // samples: 4 ms
	frames, rng := hiss(lead), rand.New(rand.NewPCG(53, 54))
	var begins []float64 // a codec's frame begins anywhere before a sound
	for range 10 {
		begins = append(begins, lead*rng.Float64())
	}
	spread := func(i int, t float64) float64 { return frames(i, t-begins[i]) * map[bool]float64{true: 1}[t < lead] }
	stop := func(t float64) float64 { return 0.3 * thud(t-lead, 1500, 3100, 5600) }
	same := func(_ int, t float64) float64 { return 0.012 * (ring(t, 1900, 0.006) + ring(t, 4300, 0.006)) }
	tests := []struct {
		name   string
		before func(i int, t float64) float64
		part   bool
	}{
		{"a soft start made by the same blades", same, true},
		{"noise as loud, new each time", func(i int, t float64) float64 { return 0.009 * spread(i, t) }, false},
		{"noise twice as loud", func(i int, t float64) float64 { return 0.018 * spread(i, t) }, false},
		{"nothing", func(int, float64) float64 { return 0 }, false},
		{"a soft start with noise 6 dB under it", func(i int, t float64) float64 { return same(i, t) + 0.0045*spread(i, t) }, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			at := instants(10)
			src := scene(0.0002, at, func(i int, t float64) float64 { return tt.before(i, t) + stop(t) })
			m := locate(t, src, moved(at, func(int) float64 { return lead }))
			want := 0.0
			if tt.part {
				want = lead
			}
			if math.Abs(m.Lead-want) > 12 {
				t.Errorf("lead = %.1f samples, want %.0f", m.Lead, want)
			}
			for i := range at {
				if math.Abs(m.Start.At[i]-(at[i]+lead-want)) > 12 || math.Abs(m.Stop.At[i]-at[i]-lead) > 12 {
					t.Errorf("movement %d from %.1f to %.1f after the first sign of it, want %.0f to %d", i, m.Start.At[i]-at[i], m.Stop.At[i]-at[i], lead-want, lead)
				}
			}
		})
	}
}

// A recorder that cuts to nothing between sounds leaves no noise to hold a start against.
func TestASoftStartOutOfDigitalSilenceIsHeard(t *testing.T) {
	const lead = 144
	at := instants(8)
	src := scene(0, at, func(_ int, t float64) float64 {
		return 0.03*thud(t, 1900, 4300) + 0.3*thud(t-lead, 1500, 3100, 5600)
	})
	m := locate(t, src, moved(at, func(int) float64 { return lead }))
	if math.Abs(m.Lead-lead) > 12 {
		t.Errorf("lead = %.1f samples, want %d", m.Lead, lead)
	}
}

// A part is told by how it rises, and a ring hides what comes in it.
func TestWhatRisesIsAPart(t *testing.T) {
	at := instants(8)
	tests := []struct {
		name  string
		sound func(t float64) float64
		parts []float64 // samples after the sound
	}{
		{"one sound", func(t float64) float64 { return 0.3 * thud(t, 1500, 3100, 5600) }, []float64{0}},
		{"a second as loud 3 ms later", func(t float64) float64 {
			return 0.3*thud(t, 1500, 3100, 5600) + 0.3*thud(t-144, 1900, 4300)
		}, []float64{0, 144}},
		{"a bounce 8 dB weaker 5 ms later", func(t float64) float64 {
			return 0.3*thud(t, 1500, 3100, 5600) + 0.12*thud(t-240, 1500, 3100, 5600)
		}, []float64{0, 240}},
		{"a second 30 dB weaker is hidden by the ring", func(t float64) float64 {
			return 0.3*thud(t, 1500, 3100, 5600) + 0.01*thud(t-100, 1900, 4300)
		}, []float64{0}},
		{"a start, a stop and a bounce", func(t float64) float64 {
			return 0.05*thud(t, 1900, 4300) + 0.3*thud(t-144, 1500, 3100, 5600) + 0.1*thud(t-380, 1500, 3100, 5600)
		}, []float64{0, 144, 380}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			src := scene(0.0005, at, func(_ int, t float64) float64 { return tt.sound(t) })
			m, err := LocateMovements(src, 0, at, math.Inf(1), math.Inf(1))
			if err != nil {
				t.Fatal(err)
			}
			var heard []float64
			for _, p := range m.Parts {
				if p.Odds > 1 {
					heard = append(heard, p.At-m.Parts[0].At)
				}
			}
			if len(heard) != len(tt.parts) {
				t.Fatalf("parts %v samples after the first, want %v", heard, tt.parts)
			}
			for i := range heard {
				if math.Abs(heard[i]-tt.parts[i]) > 18 {
					t.Errorf("part %d %v samples after the first, want %v", i, heard[i], tt.parts[i])
				}
			}
		})
	}
}
