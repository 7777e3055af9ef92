package synth

import (
	"math"
	"testing"
)

// table is a short sitting that the recorders of these tests listen to.
func table(phone Phone) Recording {
	return Recording{Seed: 6, Phone: phone, Noise: Noise{Pink, 30},
		Take: Take{Shutter: Draw(6, Leaf), Settings: Fire(Modern()[3:5], 2)}}
}

func TestChannelsInOppositePhaseSumToZero(t *testing.T) {
	x := mustClip(t, table(Phone{Mics: []Mic{{}, {Invert: true}}})).Samples()
	if rms(x[0]) == 0 {
		t.Fatal("nothing recorded")
	}
	for i := range x[0] {
		if x[0][i]+x[1][i] != 0 {
			t.Fatalf("sample %d: %g and %g", i, x[0][i], x[1][i])
		}
	}
}

func TestADeadChannelIsSilent(t *testing.T) {
	x := mustClip(t, table(Phone{Mics: []Mic{{Dead: true}, {}}})).Samples()
	if rms(x[0]) != 0 || rms(x[1]) == 0 {
		t.Errorf("RMS %g and %g, want 0 and not 0", rms(x[0]), rms(x[1]))
	}
}

func TestAFartherMicrophoneHearsLater(t *testing.T) {
	r := table(Phone{Mics: []Mic{{}, {Delay: 0.3e-3}}})
	r.Noise = Noise{}
	r.Take.Shutter = bareShutter(6)
	c := mustClip(t, r)
	x := c.Samples()
	from := c.Truth.Firings[0].Open.Start - 0.1
	later := firstSound(x[1], from, 48000) - firstSound(x[0], from, 48000)
	if math.Abs(later-0.3e-3) > 1.5/48000 {
		t.Errorf("heard %.6f s later, want 0.0003 within a sample or so", later)
	}
}

func TestTheGateCutsToDigitalZero(t *testing.T) {
	c := mustClip(t, table(Phone{Gate: &Gate{Threshold: -40, Hold: 0.08}}))
	x := c.Samples()[0]
	open := mustClip(t, table(Phone{})).Samples()[0]
	zeros := 0
	for i, v := range x {
		if v == 0 {
			zeros++
		} else if v != open[i] {
			t.Fatalf("sample %d is %g through the gate, %g without", i, v, open[i])
		}
	}
	if share := float64(zeros) / float64(len(x)); share < 0.5 || share > 0.99 {
		t.Errorf("%.2f of the clip is cut, want most of it but not all", share)
	}
	for i, f := range c.Truth.Firings {
		if loudestIn(x, f.Open.Stop, f.Open.Stop+0.01, 48000) == 0 {
			t.Errorf("the gate swallowed the opening of firing %d", i)
		}
	}
}

func TestGainControlTurnsUpQuietNoise(t *testing.T) {
	r := table(Phone{Auto: &Auto{Target: -12, Most: 25, Attack: 2e-3, Release: 0.4}})
	c := mustClip(t, r)
	auto, plain := c.Samples()[0], mustClip(t, table(Phone{})).Samples()[0]
	quiet := int((c.Truth.Firings[1].Open.Start - 0.01) * 48000)
	up := decibels(rms(auto[quiet-240:quiet]) / rms(plain[quiet-240:quiet]))
	if up < 10 || up > 25.1 {
		t.Errorf("the noise before a firing is turned up by %.1f dB, want 10 to 25", up)
	}
	loud := int(c.Truth.Firings[1].Open.Stop * 48000)
	down := decibels(rms(auto[loud+240:loud+480]) / rms(plain[loud+240:loud+480]))
	if down > up-3 {
		t.Errorf("turned up by %.1f dB after a click, by %.1f before", down, up)
	}
}

func TestLoudClicksClipAtFullScale(t *testing.T) {
	x := mustClip(t, table(Phone{Level: -3, Bits: 16})).Samples()[0]
	full := 0
	for _, v := range x {
		if v == -1 || v == 32767.0/32768 {
			full++
		}
	}
	if full < 5 {
		t.Errorf("%d samples at full scale, want some", full)
	}
}

func TestSixteenBitsAreSteps(t *testing.T) {
	for _, v := range mustClip(t, table(Phone{Bits: 16})).Samples()[0] {
		if v*32768 != math.Trunc(v*32768) {
			t.Fatalf("%g is no multiple of 1/32768", v)
		}
	}
}

func TestLostBuffersMoveOrMuteWhatTheTruthSays(t *testing.T) {
	base := table(Phone{})
	base.Noise, base.Take.Shutter = Noise{}, bareShutter(6)
	whole := mustClip(t, base)
	f := whole.Truth.Firings
	base.Phone.Losses = []Loss{
		{At: f[1].Open.Start - 0.3, Length: 0.04, Dropped: true},
		{At: f[2].Open.Stop + 0.02, Length: 0.01},
		{At: f[3].Open.Stop + 0.015, Length: 0.02, Dropped: true},
	}
	c := mustClip(t, base)
	if lost := whole.Frames() - c.Frames(); lost != 2880 {
		t.Errorf("%d frames shorter, want 2880", lost)
	}
	x := c.Samples()[0]
	for i, g := range c.Truth.Firings {
		if late := (firstSound(x, g.Open.Start-0.15, 48000) - g.Open.Start) * 48000; late < -1e-6 || late > 2 {
			t.Errorf("firing %d: first sound %.2f samples after the truth", i, late)
		}
		if d := g.Duration() - f[i].Duration(); math.Abs(d) > 1e-9 {
			t.Errorf("firing %d really lasted %g s longer?", i, d)
		}
		if g.Muted != (i == 2) || (g.Lost > 0) != (i == 3) {
			t.Errorf("firing %d: muted %v, lost %g", i, g.Muted, g.Lost)
		}
	}
	muted := c.Truth.Losses[1]
	if loudestIn(x, muted.At, muted.At+muted.Length, 48000) != 0 {
		t.Error("a buffer filled with zeros is not zero")
	}
}
