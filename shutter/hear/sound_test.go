package hear

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"earshot/dsp"
	"earshot/shutter/hear/recording"
	"earshot/shutter/hear/timing"
)

func TestADryRoomFadesFasterThanAnyRoom(t *testing.T) {
	every := func(gap float64, decays ...float64) (all []sound) {
		for i, d := range decays {
			all = append(all, sound{at: gap * float64(i), rise: 30, decay: d})
		}
		return all
	}
	tests := []struct {
		name  string
		all   []sound
		after float64 // s
		want  float64 // dB
	}{
		{"a dry room, soon after", every(1, 24, 26, 27, 28), 0.01125, 13},
		{"a dry room, when decay was taken and later", every(1, 24, 26, 27, 28), 0.05, 26},
		{"later than that it fades as any room does", every(1, 24, 26, 27, 28), 0.2, 0.2 * dsp.Fading},
		{"a room that echoes fades no more slowly than any", every(1, 2, 2, 2, 2), 0.02, 0.02 * dsp.Fading},
		{"of sounds too near each other nothing is told", every(0.03, 24, 26, 27, 28), 0.02, 0.02 * dsp.Fading},
		{"nor of two", every(1, 26, 26), 0.02, 0.02 * dsp.Fading},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := fadingOf(tt.all).after(tt.after); math.Abs(got-tt.want) > 1e-9 {
				t.Errorf("%.3f dB, want %.3f", got, tt.want)
			}
		})
	}
}

// levels draws levels in steps of 1/64 dB, sums and differences of which single
// precision keeps exactly: a band then is lost in the noise or not, whatever the gain.
func levels(from, to int) *rapid.Generator[float32] {
	return rapid.Map(rapid.IntRange(64*from, 64*to), func(n int) float32 { return float32(n) / 64 })
}

// drawnSpectrum draws a spectrum of −90 to −20 dBFS over noise of the given levels.
func drawnSpectrum(t *rapid.T, noise *rapid.Generator[float32]) *dsp.Spectrum {
	var s dsp.Spectrum
	for b := range s.Bands {
		s.Bands[b] = levels(-90, -20).Draw(t, "band")
		s.Noise[b] = noise.Draw(t, "noise")
	}
	return &s
}

// raised is s by gain dB louder, with its noise.
func raised(s *dsp.Spectrum, gain float32) *dsp.Spectrum {
	r := *s
	for b := range r.Bands {
		r.Bands[b] += gain
		r.Noise[b] += gain
	}
	return &r
}

func TestUnlikenessIsADistanceOfShapes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		noise := levels(-100, -40)
		a, b := drawnSpectrum(t, noise), drawnSpectrum(t, noise)
		d := a.Unlike(b)
		if d < 0 || math.IsNaN(d) || math.IsInf(d, 0) {
			t.Fatalf("unlikeness = %g", d)
		}
		if back := b.Unlike(a); math.Abs(back-d) > 1e-9 {
			t.Errorf("unlikeness = %g one way and %g the other", d, back)
		}
		if same := a.Unlike(a); same != 0 {
			t.Errorf("of a spectrum to itself = %g, want 0", same)
		}
		gain := levels(-30, 30).Draw(t, "gain")
		if louder := raised(a, gain).Unlike(raised(b, gain)); math.Abs(louder-d) > 1e-9 {
			t.Errorf("both raised by %g dB: %g, want %g", gain, louder, d)
		}
	})
}

func TestUnlikenessDoesNotHearHowLoudASoundIs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		far := rapid.Just[float32](-200) // noise no band is lost in
		a, b := drawnSpectrum(t, far), drawnSpectrum(t, far)
		gain := levels(-30, 30).Draw(t, "gain")
		if got, want := raised(a, gain).Unlike(b), a.Unlike(b); math.Abs(got-want) > 1e-9 {
			t.Errorf("one raised by %g dB: %g, want %g", gain, got, want)
		}
	})
}

func TestUnlikenessInCasesWorkedByHand(t *testing.T) {
	flat := func(level, noise float32, change func(*dsp.Spectrum)) *dsp.Spectrum {
		var s dsp.Spectrum
		for b := range s.Bands {
			s.Bands[b], s.Noise[b] = level, noise
		}
		if change != nil {
			change(&s)
		}
		return &s
	}
	tests := []struct {
		name string
		a, b *dsp.Spectrum
		want float64
	}{
		{"two flat spectra are alike, however loud", flat(-30, -90, nil), flat(-60, -90, nil), 0},
		{"of sounds lost in the noise nothing is told", flat(-80, -80, nil), flat(-79, -80, nil), 0},
		// One of 12 bands differs by 12 dB, so the mean does by 1: √((11² + 11·1²)/11) = √12.
		{"one band that differs counts against all", flat(-30, -90, nil), flat(-30, -90, func(s *dsp.Spectrum) { s.Bands[4] = -18 }), math.Sqrt(12)},
		{"what lies under the noise of the other does not count", flat(-40, -90, func(s *dsp.Spectrum) { s.Bands[4] = -85 }),
			flat(-40, -90, func(s *dsp.Spectrum) { s.Bands[4], s.Noise[4] = -70, -60 }), 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := tt.a.Unlike(tt.b); math.Abs(got-tt.want) > 1e-9 {
				t.Errorf("unlikeness = %g, want %g", got, tt.want)
			}
		})
	}
}

func TestPartsOfOneMovementAreOneSound(t *testing.T) {
	part := func(ms, level, rise float64, band float32) dsp.Transient {
		tr := dsp.Transient{Onset: 48 * ms, Level: level, Rise: rise, Spectrum: &dsp.Spectrum{}}
		for b := range tr.Spectrum.Bands {
			tr.Spectrum.Bands[b], tr.Spectrum.Noise[b] = band, float32(level-rise)
		}
		return tr
	}
	undescribed := func(ms, level, rise float64) dsp.Transient {
		tr := part(ms, level, rise, 0)
		tr.Spectrum = nil
		return tr
	}
	tests := []struct {
		name      string
		parts     []dsp.Transient
		sounds    int
		at        float64 // ms, of the first sound
		rise      float64
		noise     float64 // before the first part
		hasSecond bool
	}{
		{"one part is a sound by itself", []dsp.Transient{part(100, -30, 40, -40)}, 1, 100, 40, -70, false},
		{"the onset is the louder part's, here the later one's, over what came before the first",
			[]dsp.Transient{part(100, -50, 20, -60), part(103, -30, 15, -40)}, 1, 103, 40, -70, false},
		{"and here the earlier one's", []dsp.Transient{part(100, -30, 40, -40), part(105, -45, 10, -55)}, 1, 100, 40, -70, false},
		{"a part nearly as loud is remembered", []dsp.Transient{part(100, -30, 40, -40), part(105, -35, 10, -45)}, 1, 100, 40, -70, true},
		{"so is a softer one before the loudest", []dsp.Transient{part(100, -36, 34, -46), part(103, -30, 6, -40)}, 1, 103, 40, -70, true},
		{"a part without a spectrum lends none", []dsp.Transient{part(100, -30, 40, -40), undescribed(106, -31, 9)}, 1, 100, 40, -70, false},
		{"a louder part without a spectrum takes nothing from those before it",
			[]dsp.Transient{part(100, -30, 40, -40), part(103, -35, 10, -45), undescribed(106, -28, 12)}, 1, 106, 42, -70, true},
		{"nor invents a part nearly as loud", []dsp.Transient{part(100, -30, 40, -40), undescribed(106, -28, 12)}, 1, 106, 42, -70, false},
		{"what begins later is another sound", []dsp.Transient{part(100, -30, 40, -40), part(113, -30, 20, -40)}, 2, 100, 40, -70, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			clip := recording.Of(&dsp.Hearing{Format: dsp.Format{Rate: 48000, Channels: 1}}, nil)
			got := sounds(&clip, tt.parts, timing.SameSound)
			if len(got) != tt.sounds {
				t.Fatalf("%d sounds, want %d", len(got), tt.sounds)
			}
			s := got[0]
			if math.Abs(s.at-tt.at/1000) > 1e-9 || math.Abs(s.rise-tt.rise) > 1e-6 || (s.second != nil) != tt.hasSecond {
				t.Errorf("at %.4f s, rise %.1f dB, second part %v; want %.4f, %.1f, %v", s.at, s.rise, s.second != nil, tt.at/1000, tt.rise, tt.hasSecond)
			}
			if math.Abs(float64(s.spectrum.Noise[0])-tt.noise) > 1e-6 {
				t.Errorf("noise before it %.1f dBFS, want %.1f", s.spectrum.Noise[0], tt.noise)
			}
		})
	}
}
