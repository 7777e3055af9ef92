package dsp

import "testing"

func TestOnlyWhatStandsOutIsDescribed(t *testing.T) {
	type heard struct {
		ms, level float64
		want      bool
	}
	tests := []struct {
		name  string
		heard []heard
	}{
		{"a closing as loud as the opening, 1/30 s later", []heard{{100, -20, true}, {133.3, -20, true}}},
		{"not an echo 20 dB weaker", []heard{{100, -20, true}, {113, -40, false}}},
		{"another part nearly as loud within 12 ms", []heard{{100, -20, true}, {104, -28, true}}},
		{"not a part much weaker", []heard{{100, -20, true}, {104, -32, false}}},
		{"not the parts of a part", []heard{{100, -20, true}, {108, -28, true}, {116, -32, false}}},
		{"a weak sound in the quiet", []heard{{100, -20, true}, {600, -60, true}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var e ear
			for _, s := range tt.heard {
				if got := e.standsOut(s.level, s.ms*48, 48000); got != s.want {
					t.Errorf("%.0f dBFS at %.1f ms: %v, want %v", s.level, s.ms, got, s.want)
				}
				e.heard = append(e.heard, Transient{})
			}
		})
	}
}

func TestGapsAreStretchesOfZerosOnEveryChannel(t *testing.T) {
	const rate, n = 48000, 24000
	tests := []struct {
		name string
		lose func(left, right []float64)
		want []Gap
	}{
		{"zeros on one channel only are none", func(left, _ []float64) { clear(left[4800:9600]) }, nil},
		{"zeros on both are one", func(left, right []float64) { clear(left[4800:9600]); clear(right[4800:9600]) }, []Gap{{4800, 9600}}},
		{"a run of 2 ms is just quiet", func(left, right []float64) { clear(left[4800:4896]); clear(right[4800:4896]) }, nil},
		{"the clip's end ends one", func(left, right []float64) { clear(left[21600:]); clear(right[21600:]) }, []Gap{{21600, n - 7}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			left, right := bursts(rate, n, 0.001)[:n-7], bursts(rate, n, 0.002)[:n-7]
			tt.lose(left, right)
			h := listen(t, Format{rate, 2}, interleave(left, right))
			if len(h.Gaps) != len(tt.want) {
				t.Fatalf("gaps = %v, want %v", h.Gaps, tt.want)
			}
			for i, g := range h.Gaps {
				if g != tt.want[i] {
					t.Errorf("gap %v, want %v", g, tt.want[i])
				}
			}
		})
	}
}
