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
	for i, kind := range Kinds() {
		if i%7 != 0 {
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
		times := []float64{last, f.Open.Start, f.Open.Stop}
		if f.Closes {
			times = append(times, f.Close.Start, f.Close.Stop, seconds(r))
		}
		if !slices.IsSorted(times) && f.Plain {
			t.Errorf("times of a firing out of order: %v", times)
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

// checkRise holds that sound above 1 kHz rises where plain firings' stops are said to be. In every
// fourth it may be hidden, by a beat or by a sound of the room.
func checkRise(t *testing.T, r known.Recording) {
	t.Helper()
	n, rise := r.Rate/1000, 0
	var high [][]float64
	for _, x := range r.Channels {
		high = append(high, slices.Clone(x))
		highPass(high[len(high)-1], float64(r.Rate), 1000)
	}
	var all int
	for _, f := range r.Truth.Firings {
		for _, s := range []float64{f.Open.Stop, f.Close.Stop} {
			at := int(math.Round(s * float64(r.Rate)))
			if !f.Plain || at < n || at+2*n > len(r.Channels[0]) {
				continue
			}
			all++
			before, after := 0.0, 0.0
			for _, x := range high {
				before += rms(x[at-n : at])
				after += rms(x[at : at+2*n])
			}
			if after > 1.5*before {
				rise++
			}
		}
	}
	if rise < all*3/4 {
		t.Errorf("sound rises at %d of %d ends", rise, all)
	}
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
