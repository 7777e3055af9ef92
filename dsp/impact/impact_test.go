package impact

import (
	"math"
	"slices"
	"strings"
	"testing"

	"earshot/dsp/internal/num"
	"earshot/dsp/known"
)

// short cuts a plan down, so that the tests are quick: a few firings at one mark, in a dead
// room.
func short(p *plan) {
	p.told = p.told[len(p.told)/2:][:1]
	p.told[0].Count = 2
	if p.crop {
		p.told[0].Count = 3
	}
	p.told[0].Mark, p.told[0].Nominal = "1/8", 0.125
	p.rt, p.wait, p.lasts = [2]float64{0.1, 0.1}, 0.8, [2]float64{2, 2.5}
}

// made makes a short recording of a kind.
func made(k kind, seed uint64, change ...func(*plan)) known.Recording {
	p := k.plan(seed)
	short(p)
	for _, c := range change {
		c(p)
	}
	return k.perform(p, seed)
}

func TestTheSameSeedMakesTheSameSamples(t *testing.T) {
	for _, name := range []string{"reflex", "lost buffers", "nothing: pens"} {
		k := called(t, name)
		a, b, c := made(k, 7), made(k, 7), made(k, 8)
		if !slices.Equal(a.Channels[0], b.Channels[0]) {
			t.Errorf("%s: one seed made two recordings", name)
		}
		if slices.Equal(a.Channels[0], c.Channels[0]) {
			t.Errorf("%s: two seeds made one recording", name)
		}
	}
}

func TestEveryKindMakesSomethingWithinFullScale(t *testing.T) {
	for i, k := range kinds() {
		if testing.Short() && i%3 > 0 {
			continue
		}
		r := made(k, uint64(i))
		n := len(r.Channels[0])
		loud := 0.0
		for _, c := range r.Channels {
			if len(c) != n {
				t.Errorf("%s: channels of %d and %d samples", k.name, n, len(c))
			}
			loud = max(loud, peak(c))
		}
		if r.Name != k.name || n < r.Rate || loud < 0.01 || loud > 1 || math.IsNaN(rms(r.Channels[0])) {
			t.Errorf("%s: %q, %d samples, peak %g", k.name, r.Name, n, loud)
		}
		inside(t, r)
		untold(t, r)
	}
}

// inside fails where the truth is out of order or beyond the clip.
func inside(t *testing.T, r known.Recording) {
	t.Helper()
	end, last := float64(len(r.Channels[0]))/float64(r.Rate), -9.0
	for _, f := range r.Truth.Firings {
		opens, closes := []float64{last, f.Open.Start, f.Open.Stop, end}, []float64{}
		if f.Closes {
			closes = []float64{f.Open.Start, f.Close.Start, f.Close.Stop, end}
		}
		if !slices.IsSorted(opens) || !slices.IsSorted(closes) || f.Open.Start < 0 && f.Plain {
			t.Errorf("%s: firing %+v after %g in a clip of %g s", r.Name, f, last, end)
		}
		last = f.Open.Start
	}
	last = 0
	for _, o := range r.Truth.Others {
		if o.Start < last || o.End < o.Start || o.End > end+1e-9 {
			t.Errorf("%s: %+v after %g in a clip of %g s", r.Name, o, last, end)
		}
		last = o.Start
	}
}

// untold fails where something is fired or told of though nothing is said to be fired.
func untold(t *testing.T, r known.Recording) {
	t.Helper()
	tr, fires := r.Truth, !strings.HasPrefix(r.Name, "nothing: ")
	if fires != (len(tr.Firings) > 0) || fires != (len(tr.Told) > 0) || fires != (tr.Kind != known.Nothing) {
		t.Errorf("%s: %d firings, told %v, of %q", r.Name, len(tr.Firings), tr.Told, tr.Kind)
	}
}

func TestEveryStrokeRisesOutOfWhatWasBefore(t *testing.T) {
	for _, k := range append(ofShutters(), called(t, "lazy blades"), called(t, "8 or 16 kHz")) {
		r := made(k, 11, func(p *plan) {
			p.snr, p.bumps = quiet+50, 0
			p.shutter.mirror.level = -60
			p.shutter.escapement.brake, p.shutter.escapement.hiss = true, 0
		})
		for _, f := range r.Truth.Firings {
			rise(t, r, "opening", f.Open.Start)
			if f.Close.Start-f.Open.Stop > 0.1 {
				rise(t, r, "closing", f.Close.Start)
			}
		}
	}
}

// rise fails unless the millisecond from a time on is louder than the one before it.
func rise(t *testing.T, r known.Recording, what string, at float64) {
	t.Helper()
	x, n := r.Channels[0], r.Rate/1000
	i := int(math.Round(at * float64(r.Rate)))
	before, after := decibels(rms(x[i-n:i])), decibels(rms(x[i:i+n]))
	if after < before+6 {
		t.Errorf("%s: the %s at %.4f s rises from %.1f to %.1f dB", r.Name, what, at, before, after)
	}
}

func TestTheFirstSampleOfSoundIsAtTheStart(t *testing.T) {
	for _, name := range []string{"leaf", "leaf, big", "96 kHz", "clock error"} {
		r := made(called(t, name), 2, func(p *plan) {
			p.snr, p.winder.way, p.beside = quiet+50, "none", nil
		})
		x := r.Channels[0]
		first := slices.IndexFunc(x, func(v float64) bool { return math.Abs(v) > 1e-9 })
		if want := r.Truth.Firings[0].Open.Start * float64(r.Rate); math.Abs(float64(first)-want) > 1 {
			t.Errorf("%s: sound begins at sample %d, want %.1f", name, first, want)
		}
	}
}

func TestTheNoiseIsAsFarDownAsTheTruthSays(t *testing.T) {
	r := made(called(t, "leaf"), 5, func(p *plan) { p.snr, p.bumps, p.noise.sways = 30, 0, 0 })
	var levels []float64
	x, rate := r.Channels[0], float64(r.Rate)
	for _, f := range r.Truth.Firings {
		for _, k := range []known.Stroke{f.Open, f.Close} {
			levels = append(levels, loudest(x, rate, k.Start, k.Stop+over))
		}
	}
	noise := above1kHz(x, rate, 0, int(0.3*rate))
	if got := num.Median(levels) - noise; math.Abs(got-r.Truth.SNR) > 1.5 {
		t.Errorf("ends are %.1f dB over the noise, want %.1f", got, r.Truth.SNR)
	}
}

func TestAnUnknownKindIsAnError(t *testing.T) {
	if _, err := Make("nonsense", 1); err == nil {
		t.Error("Make made nonsense")
	}
}

func TestWhatTheRecorderSkipsIsGoneFromTheTimes(t *testing.T) {
	tk := &take{x: make([]float64, 1000), rate: 100, truth: &known.Truth{Firings: []known.Firing{
		{Open: known.Stroke{Start: 1, Stop: 1}}, {Open: known.Stroke{Start: 6, Stop: 6.5}},
	}}}
	tk.cut([]pause{{2, 4}, {5, 5.5}})
	if got := tk.truth.Firings; len(tk.x) != 750 || got[0].Open.Start != 1 || got[1].Open.Start != 3.5 || got[1].Open.Stop != 4 {
		t.Errorf("%d samples, %+v", len(tk.x), got)
	}
}

// called returns the kind of a name.
func called(t *testing.T, name string) kind {
	t.Helper()
	for _, k := range kinds() {
		if k.name == name {
			return k
		}
	}
	t.Fatalf("no kind %q", name)
	return kind{}
}
