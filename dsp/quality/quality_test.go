package quality

import (
	"math"
	"testing"

	"earshot/dsp"
	"earshot/dsp/synth"
)

// plain is a leaf shutter in a room without echo, fired once at each of three speeds.
func plain(seed uint64) synth.Recording {
	s := synth.Draw(seed, synth.Leaf)
	s.Soft = false
	return synth.Recording{
		Seed:  seed,
		Take:  synth.Take{Shutter: s, Settings: synth.Fire(synth.Modern()[2:5], 1)},
		Noise: synth.Noise{Colour: synth.RoomNoise, ClickOver: 30},
		Phone: synth.Phone{Rate: 48000, Bits: 16},
	}
}

// measured is what Measure tells of a recording, and the recording's truth.
func measured(t *testing.T, r synth.Recording) (*Quality, *dsp.Hearing, synth.Truth) {
	t.Helper()
	c, err := r.Clip()
	if err != nil {
		t.Fatal(err)
	}
	h, err := dsp.Listen(c)
	if err != nil {
		t.Fatal(err)
	}
	q, err := Measure(h, c)
	if err != nil {
		t.Fatal(err)
	}
	var ends []int64
	for _, f := range c.Truth.Firings {
		ends = append(ends, int64(f.Open.Start*float64(h.Rate)), int64(f.Close.Start*float64(h.Rate)))
	}
	if err := q.HearClicks(h, c, ends); err != nil {
		t.Fatal(err)
	}
	return q, h, c.Truth
}

func TestNoiseAndClicksAreMeasuredAsTheyWerePlayed(t *testing.T) {
	for seed := range uint64(3) {
		r := plain(seed)
		r.Noise.Colour = []synth.Colour{synth.White, synth.Pink, synth.RoomNoise}[seed%3]
		q, _, truth := measured(t, r)
		if math.Abs(q.Floor-truth.Noise) > 1 {
			t.Errorf("%s noise of %.1f dBFS is measured as %.1f", r.Noise.Colour, truth.Noise, q.Floor)
		}
		if math.Abs(q.Click-truth.Click) > 2 {
			t.Errorf("clicks of %.1f dBFS are measured as %.1f", truth.Click, q.Click)
		}
		if q.Bandwidth != 24000 || q.Hum != (Hum{}) || q.Muted != (Muted{}) || q.Recovery != 0 {
			t.Errorf("seed %d: bandwidth %g, %+v, %+v, recovery %g in a plain recording", seed, q.Bandwidth, q.Hum, q.Muted, q.Recovery)
		}
	}
}

func TestHumIsMeasuredAsItWasPlayed(t *testing.T) {
	for seed, mains := range []float64{50, 60, 50, 60} {
		r := plain(uint64(seed))
		r.Hum = synth.Hum{Frequency: mains, Level: -8}
		q, _, truth := measured(t, r)
		if want := truth.Click - 8; q.Hum.Frequency != mains || math.Abs(q.Hum.Level-want) > 1.5 {
			t.Errorf("hum of %g Hz at %.1f dBFS is measured as %+v", mains, want, q.Hum)
		}
	}
}

func TestNoiseRisesBehindAGainControlAlone(t *testing.T) {
	echo := func(r *synth.Recording) { r.Room = &synth.Room{RT60: 0.5} }
	for name, c := range map[string]struct {
		change func(r *synth.Recording)
		rises  bool
	}{
		"nothing": {func(*synth.Recording) {}, false},
		"echo":    {echo, false},
		"speech":  {func(r *synth.Recording) { r.Take.Distractors = []synth.Distractor{{Kind: synth.Speech, Level: -6}} }, false},
		"a clock": {func(r *synth.Recording) { r.Take.Clock = &synth.Clock{Every: 1, Level: -20} }, false},
		"gain control": {func(r *synth.Recording) {
			r.Phone.Auto = &synth.Auto{Target: -9, Most: 30, Attack: 0.005, Release: 0.4}
		}, true},
		"gain control, slow release": {func(r *synth.Recording) {
			r.Phone.Auto = &synth.Auto{Target: -9, Most: 30, Attack: 0.002, Release: 1}
		}, true},
	} {
		seeds := uint64(2)
		if testing.Short() {
			seeds = 1
		}
		for seed := range seeds {
			r := plain(seed)
			c.change(&r)
			if q, h, _ := measured(t, r); (q.Recovery > 0) != c.rises {
				t.Errorf("%s, seed %d: the noise rises by %.1f dB: %.1f", name, seed, q.Recovery, rises(h))
			}
		}
	}
}

func TestAGateAndLostSamplesAreToldApart(t *testing.T) {
	r := plain(4)
	r.Phone.Gate = &synth.Gate{Threshold: -32, Hold: 0.05}
	if q, _, _ := measured(t, r); !q.Muted.Gated {
		t.Errorf("behind a gate: %+v", q.Muted)
	}
	r.Phone.Gate.Threshold = -38 // about where the noise is at its loudest
	if q, _, _ := measured(t, r); !q.Muted.Gated {
		t.Errorf("behind a gate that chatters: %+v", q.Muted)
	}
	r = plain(4)
	r.Phone.Losses = []synth.Loss{{At: 2, Length: 0.03}, {At: 4, Length: 0.05}}
	if q, _, _ := measured(t, r); q.Muted.Gated || q.Muted.Gaps != 2 || math.Abs(q.Muted.Time-0.08) > 0.002 {
		t.Errorf("two buffers lost, 80 ms: %+v", q.Muted)
	}
}

func TestPaddingWithZerosIsNoLoss(t *testing.T) {
	h := &dsp.Hearing{Format: dsp.Format{Rate: 48000, Channels: 1}, Frames: 480000, Gaps: []dsp.Gap{{Start: 0, End: 2000}, {Start: 479000, End: 480000}}}
	if m := muted(h); m != (Muted{}) {
		t.Errorf("%+v", m)
	}
}

func TestChannelsAreKnownForWhatTheyAre(t *testing.T) {
	type told struct{ dead, opposite bool }
	for name, c := range map[string]struct {
		mics []synth.Mic
		want []told
	}{
		"alike":                      {[]synth.Mic{{}, {Gain: -6, Delay: 0.2e-3}}, []told{{}, {}}},
		"the first dead":             {[]synth.Mic{{Dead: true}, {}}, []told{{dead: true}, {}}},
		"the second dead":            {[]synth.Mic{{}, {Dead: true}}, []told{{}, {dead: true}}},
		"opposite":                   {[]synth.Mic{{}, {Invert: true}}, []told{{}, {opposite: true}}},
		"opposite, later and weaker": {[]synth.Mic{{}, {Invert: true, Delay: 0.25e-3, Gain: -8}}, []told{{}, {opposite: true}}},
	} {
		r := plain(5)
		r.Phone.Mics = c.mics
		q, _, _ := measured(t, r)
		for i, ch := range q.Channels {
			if got := (told{ch.Dead, ch.Opposite}); got != c.want[i] {
				t.Errorf("%s: channel %d is %+v, want %+v", name, i+1, ch, c.want[i])
			}
		}
		if len(q.Channels) != 2 {
			t.Errorf("%s: %d channels", name, len(q.Channels))
		}
	}
}

func TestSilenceAndShortClipsTellNothing(t *testing.T) {
	for name, r := range map[string]synth.Recording{
		"silence": {Take: synth.Take{Length: 3}},
		"short":   {Take: synth.Take{Length: 0.05}, Noise: synth.Noise{Colour: synth.White, ClickOver: 30}},
	} {
		q, _, _ := measured(t, r)
		if q.Noise != nil && !math.IsInf(q.Floor, -1) || q.Loud != nil || !math.IsNaN(q.Click) || len(q.Channels) > 0 {
			t.Errorf("%s: %+v", name, q)
		}
	}
}
