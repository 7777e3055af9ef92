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
			var e channel
			for _, s := range tt.heard {
				if got := e.standsOut(s.level, s.ms*48, 48000); got != s.want {
					t.Errorf("%.0f dBFS at %.1f ms: %v, want %v", s.level, s.ms, got, s.want)
				}
				e.heard = append(e.heard, Transient{})
			}
		})
	}
}
