package main

import (
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"earshot/dsp"
	"earshot/dsp/synth"
)

// steady is a kind with one sound, which lasts 0.4 s at the same strength throughout.
func steady() *recordedKind {
	x := make([]float64, recordedRate*2/5)
	for i := range x {
		x[i] = 1
	}
	return &recordedKind{name: "steady", play: oneByOne(0.1, 0.2), load: func() ([]recordedSound, error) {
		return []recordedSound{{"steady", x}}, nil
	}}
}

// without and with are a scene's samples, left alone and with the sounds in it.
func withoutAndWith(t *testing.T, s scene) (without, with []float64, truth synth.Truth) {
	t.Helper()
	read := func(s scene) []float64 {
		src, tr, err := s.Clip()
		if err != nil {
			t.Fatal(err)
		}
		truth = tr
		return allOf(t, src)
	}
	alone := s
	alone.beside = nil
	without = read(alone)
	return without, read(s), truth
}

func allOf(t *testing.T, src dsp.Source) []float64 {
	t.Helper()
	x := make([]float64, 200*src.Format().Rate)
	n, err := src.ReadFramesAt(x, 0)
	if err != nil || n == len(x) {
		t.Fatalf("%d frames, %v", n, err)
	}
	return x[:n]
}

func TestSoundsBetweenFiringsKeepAwayFromThem(t *testing.T) {
	s := scene{Recording: plain(4, 0), beside: &beside{steady(), -6}}
	s.Phone.Rate = recordedRate
	x, y, truth := withoutAndWith(t, s)
	first, last := truth.Firings[0], truth.Firings[len(truth.Firings)-1]
	heard := 0
	for i := range y {
		d, at := y[i]-x[i], float64(i)/recordedRate
		if d == 0 {
			continue
		}
		heard++
		if at < first.Close.Stop+0.299 || at > last.Open.Start-0.299 {
			t.Fatalf("a sound at %.4f s, before the first closing or after the last opening", at)
		}
		for n, f := range truth.Firings {
			if at > f.Open.Start-0.299 && at < f.Close.Stop+0.299 {
				t.Fatalf("a sound at %.4f s, where firing %d, from %.4f to %.4f s, is to be alone", at, n, f.Open.Start, f.Close.Stop)
			}
		}
		if db := 20 * math.Log10(d); db > truth.Click-6+3.01 {
			t.Fatalf("a sound of %.1f dBFS at %.4f s, the click has %.1f", db, at, truth.Click)
		}
	}
	if s := float64(heard) / recordedRate; s < 3 {
		t.Errorf("sounds are heard for %.2f s, want 3 at least", s)
	}
}

func TestSoundsAloneFillTheClipAndAreNamed(t *testing.T) {
	s := scene{Recording: plain(4, 0), beside: &beside{steady(), 0}}
	s.Phone.Rate = recordedRate
	still(&s)
	s.Take.Length = 10
	x, y, truth := withoutAndWith(t, s)
	heard := 0
	for i := range y {
		if y[i] != x[i] {
			heard++
		}
	}
	if part := float64(heard) / float64(len(y)); part < 0.6 {
		t.Errorf("sounds are heard in %.2f of the clip, want 0.6 at least", part)
	}
	if n := len(truth.Sounds); n < 10 || truth.Sounds[n-1].Kind != "steady steady" || truth.Sounds[n-1].End > float64(len(y))/recordedRate+1e-3 {
		t.Errorf("the truth names %d sounds, the last %+v", n, truth.Sounds[n-1])
	}
}

func TestASoundCutShortIsFaded(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 1))
	sounds, _ := steady().load()
	whole := sounds[0].samples
	if y := excerpt(rnd, whole, 1); len(y) != len(whole) || y[0] != 1 || y[len(y)-1] != 1 {
		t.Errorf("a sound that has room is not left as it is")
	}
	y := excerpt(rnd, whole, 0.1)
	if len(y) != recordedRate/10 || y[0] != 1 || y[len(y)-1] != 0 {
		t.Errorf("%d samples from %g to %g, want 4800 that end in silence", len(y), y[0], y[len(y)-1])
	}
	long := make([]float64, 5*recordedRate)
	for i := range long {
		long[i] = 1
	}
	if y := excerpt(rnd, long, 1); len(y) != recordedRate || y[0] != 0 || y[len(y)-1] != 0 {
		t.Errorf("a part of a long sound does not begin and end in silence")
	}
}

func TestASoundPlayedFasterIsShorterAndHigher(t *testing.T) {
	x := make([]float64, 4800)
	for i := range x {
		x[i] = math.Sin(2 * math.Pi * 500 * float64(i) / recordedRate)
	}
	y := played(x, 1.1)
	if math.Abs(float64(len(y))-4800/1.1) > 2 {
		t.Errorf("%d samples, want 4800/1.1", len(y))
	}
	for i, v := range y {
		if want := math.Sin(2 * math.Pi * 550 * float64(i) / recordedRate); math.Abs(v-want) > 1e-3 {
			t.Fatalf("sample %d is %g, want %g, of 550 Hz", i, v, want)
		}
	}
}

// What the packages hold is what the rows need: enough different sounds, all loud.
func TestRecordedKindsAreThere(t *testing.T) {
	if testing.Short() {
		t.Skip("it reads a thousand sounds")
	}
	for _, k := range recordedKinds() {
		t.Run(k.name, func(t *testing.T) {
			if pkgs := k.missing(); len(pkgs) > 0 {
				missing(t, strings.Join(pkgs, ", "), os.ErrNotExist)
			}
			sounds, err := k.load()
			if err != nil {
				t.Fatal(err)
			}
			for _, d := range k.from {
				if len(d.files()) < 2 {
					t.Errorf("%s has %d files for %s", d.pkg, len(d.files()), d.glob)
				}
			}
			if len(sounds) < 12 {
				t.Errorf("%d sounds, want a dozen at least", len(sounds))
			}
			for _, s := range sounds {
				if p := loudest(s.samples); math.Abs(p-1) > 1e-6 {
					t.Errorf("%s: its loudest 2 ms have a power of %g, want 1", s.name, p)
				}
			}
		})
	}
}

func TestWhatIsLeftOutIsSaid(t *testing.T) {
	if got := aboutAbsent(nil); got != "" {
		t.Errorf("nothing is left out, and it says %q", got)
	}
	got := aboutAbsent([]absence{{"the rows through codecs", []string{"ffmpeg"}}, {"the rows with recorded speech", []string{"one", "two"}}})
	for _, want := range []string{"- the rows through codecs: install ffmpeg.\n", "- the rows with recorded speech: install one, two.\n"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q does not hold %q", got, want)
		}
	}
}
