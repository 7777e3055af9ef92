package collage

import (
	"errors"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"earshot/dsp/known"
)

func TestRecordings(t *testing.T) {
	l := library(t)
	t.Run("the same seed gives the same clip, another seed another", func(t *testing.T) {
		a, b, c := made(t, l, "leaf", 7), made(t, l, "leaf", 7), made(t, l, "leaf", 8)
		if !reflect.DeepEqual(a, b) {
			t.Error("two clips of seed 7 differ")
		}
		if reflect.DeepEqual(a.Channels, c.Channels) {
			t.Error("clips of seeds 7 and 8 are the same")
		}
	})
	t.Run("a stroke begins and stops on the samples that are told", func(t *testing.T) { checkStroke(t, l) })
	for i, kind := range Kinds() {
		if i%9 != 0 || testing.Short() && i%27 != 0 {
			continue
		}
		t.Run(kind, func(t *testing.T) {
			t.Parallel()
			r := made(t, l, kind, uint64(i))
			checkSamples(t, r)
			checkTimes(t, r)
			checkRise(t, r)
		})
	}
}

func made(t *testing.T, l *Library, kind string, seed uint64) known.Recording {
	t.Helper()
	r, err := l.Make(kind, seed)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func checkSamples(t *testing.T, r known.Recording) {
	t.Helper()
	for _, x := range r.Channels {
		if len(x) != len(r.Channels[0]) {
			t.Fatalf("channels of %d and %d samples", len(x), len(r.Channels[0]))
		}
		for i, v := range x {
			if math.Abs(v) >= 1 || math.IsNaN(v) {
				t.Fatalf("sample %d is %v", i, v)
			}
		}
	}
	if s := seconds(r); s < 6 || s > 130 {
		t.Errorf("%.1f s long", s)
	}
}

func seconds(r known.Recording) float64 { return float64(len(r.Channels[0])) / float64(r.Rate) }

func checkTimes(t *testing.T, r known.Recording) {
	t.Helper()
	nothing := strings.HasPrefix(r.Name, "nothing: ")
	if nothing != (len(r.Truth.Firings) == 0) || nothing != (r.Truth.Kind == known.Nothing) {
		t.Errorf("%d firings of kind %q", len(r.Truth.Firings), r.Truth.Kind)
	}
	last := math.Inf(-1)
	for _, f := range r.Truth.Firings {
		if f.Open.Start <= last || f.Open.Start > f.Open.Stop || f.Open.Stop >= seconds(r) {
			t.Errorf("opening %+v of a clip of %.3f s, after one at %v", f.Open, seconds(r), last)
		}
		// A slit's second curtain may start before the first stops.
		if f.Closes && (f.Close.Start <= f.Open.Start || f.Close.Stop <= f.Open.Stop || f.Close.Start > f.Close.Stop || f.Close.Stop >= seconds(r)) {
			t.Errorf("closing %+v after opening %+v in a clip of %.3f s", f.Close, f.Open, seconds(r))
		}
		if f.Plain && f.Open.Start < 0 {
			t.Errorf("plain firing begins at %v", f.Open.Start)
		}
		last = f.Open.Start
	}
	for _, o := range r.Truth.Others {
		if o.Start > o.End || o.End > seconds(r)+1e-9 || o.Kind == "" {
			t.Errorf("%+v in a clip of %.3f s", o, seconds(r))
		}
	}
}

// checkStroke holds that nothing is on the tape before Start, and that what Stop adds is
// nothing before Stop.
func checkStroke(t *testing.T, l *Library) {
	t.Helper()
	for seed := range uint64(10) {
		take := l.take(newDraw("stroke", seed), 48000)
		m := take.leaf(false)
		s := take.opening(m, 0.1, 1)
		if got := first(take.tape); got != int(math.Round(s.Start*take.rate)) {
			t.Errorf("seed %d: first sample %d, told %v s", seed, got, s.Start)
		}
		m.low = 0 // only the stop is heard
		take.tape = nil
		s = take.opening(m, 0.1, 1)
		if got := first(take.tape); got != int(math.Round(s.Stop*take.rate)) {
			t.Errorf("seed %d: first sample of the stop %d, told %v s", seed, got, s.Stop)
		}
	}
}

// first is the index of the first sample that isn't 0.
func first(x []float64) int {
	return slices.IndexFunc(x, func(v float64) bool { return v != 0 })
}

// checkRise holds that sound above 1 kHz rises where plain firings' strokes are said to
// start or stop. In every fourth it may be hidden by a beat or by a sound of the room.
func checkRise(t *testing.T, r known.Recording) {
	t.Helper()
	var high [][]float64
	for _, x := range r.Channels {
		high = append(high, slices.Clone(x))
		highPass(high[len(high)-1], float64(r.Rate), 1000)
	}
	rising, all := 0, 0
	for _, f := range r.Truth.Firings {
		for _, stroke := range []known.Stroke{f.Open, f.Close} {
			if !f.Plain {
				continue
			}
			all++
			if rise(high, r.Rate, stroke.Start) > 1.5 || rise(high, r.Rate, stroke.Stop) > 1.5 {
				rising++
			}
		}
	}
	if rising < all*3/4 {
		t.Errorf("sound rises at %d of %d ends", rising, all)
	}
}

// rise is the level of 2 ms from s on over that of the ms before, all channels together.
func rise(channels [][]float64, rate int, s float64) float64 {
	n, at := rate/1000, int(math.Round(s*float64(rate)))
	before, after := 1e-9, 0.0
	for _, x := range channels {
		before += rms(x[max(0, at-n):at])
		after += rms(x[at:min(len(x), at+2*n)])
	}
	return after / before
}

func TestKindsAreManyAndNamedOnce(t *testing.T) {
	kinds := Kinds()
	none := 0
	for _, k := range kinds {
		if strings.HasPrefix(k, "nothing: ") {
			none++
		}
	}
	if none < 15 || len(kinds)-none < 30 {
		t.Errorf("%d kinds with firings, %d without", len(kinds)-none, none)
	}
	sorted := slices.Sorted(slices.Values(kinds))
	if len(slices.Compact(sorted)) != len(kinds) {
		t.Error("a name is there twice")
	}
}

func TestOpenNamesThePackagesThatAreMissing(t *testing.T) {
	_, err := Open(func(string) ([]float64, int, error) { return nil, 0, errors.New("no such file") })
	if err == nil || !strings.Contains(err.Error(), "bucklespring-data") {
		t.Errorf("Open = %v, want the names of packages", err)
	}
}

func TestConvolveMatchesItsDefinition(t *testing.T) {
	d := newDraw("convolve", 1)
	x, h := make([]float64, 300), make([]float64, 40)
	for i := range x[100:] {
		x[100+i] = d.NormFloat64()
	}
	for i := range h {
		h[i] = d.NormFloat64()
	}
	for i, got := range convolve(x, h) {
		want := 0.0
		for k, v := range h {
			if i-k >= 0 {
				want += v * x[i-k]
			}
		}
		if math.Abs(got-want) > 1e-9 {
			t.Fatalf("convolve at %d = %v, want %v", i, got, want)
		}
	}
}

func BenchmarkMake(b *testing.B) {
	l := library(b)
	for b.Loop() {
		if _, err := l.Make("leaf", 1); err != nil {
			b.Fatal(err)
		}
	}
}
