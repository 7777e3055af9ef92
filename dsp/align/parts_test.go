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
	spread := hiss(lead)
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

// Noise that was passed over would have hidden a start as weak as it.
func TestWhatIsPassedOverMayHideAStart(t *testing.T) {
	const lead = 192
	at := instants(10)
	depth := func(loud float64) float64 {
		spread := hiss(lead)
		src := scene(0.0002, at, func(i int, t float64) float64 {
			return loud*spread(i, t) + 0.3*thud(t-lead, 1500, 3100, 5600)
		})
		return locate(t, src, moved(at, func(int) float64 { return lead })).Depth
	}
	clear, hidden := depth(0), depth(0.018)
	if hidden > clear-6 || hidden > 25 || hidden < 10 {
		t.Errorf("a start is heard down to %.1f dB under noise that comes before the sounds, to %.1f without", hidden, clear)
	}
}

func TestTheStartIsPassedOnToWherePowerDoubles(t *testing.T) {
	tests := []struct {
		name      string
		envelope  []float64
		start     int
		want      int
		threshold float64
	}{
		{"the next rise", []float64{1, 2, 2, 2, 5, 5, 50}, 1, 4, 2},
		{"not a ripple", []float64{1, 2, 2, 3, 2, 3, 50}, 1, 6, 3},
		{"not the way back from a dip", []float64{1, 4, 4, 1, 4, 4, 50}, 1, 6, 4},
		{"the stop where nothing else rises", []float64{1, 2, 2, 2, 2, 2, 2}, 1, 6, 2},
		{"the stop right after", []float64{1, 1, 1, 1, 1, 2, 50}, 5, 6, 2},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := &parts{envelope: tt.envelope, bin: 12, start: tt.start, stop: 6, threshold: 0.5}
			p.passOver()
			if p.start != tt.want || p.threshold != tt.threshold {
				t.Errorf("start in bin %d, heard from a power of %g; want %d and %g", p.start, p.threshold, tt.want, tt.threshold)
			}
		})
	}
}
