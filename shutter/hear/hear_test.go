package hear_test

import (
	"errors"
	"fmt"
	"io"
	"testing"

	"earshot/dsp"
	"earshot/dsp/synth"
	"earshot/shutter"
	"earshot/shutter/hear"
)

// played is a mono clip held in memory. Where fail is set, it cannot be read again.
type played struct {
	format dsp.Format
	frames []float64
	pos    int
	fail   error
}

func (p *played) Format() dsp.Format { return p.format }

func (p *played) ReadFrames(dst []float64) (int, error) {
	n := copy(dst, p.frames[p.pos:])
	p.pos += n
	if n == 0 {
		return 0, io.EOF
	}
	return n, nil
}

func (p *played) ReadFramesAt(dst []float64, frame int64) (int, error) {
	if p.fail != nil {
		return 0, p.fail
	}
	return copy(dst, p.frames[min(int(frame), len(p.frames)):]), nil
}

// recorded is a recording at 48 kHz, 35 dB over a quiet room's noise, and its truth.
// What happens by chance is drawn from the seed.
func recorded(t testing.TB, seed uint64, take synth.Take, losses ...synth.Loss) (*played, synth.Truth) {
	t.Helper()
	return played16(t, synth.Recording{
		Seed:  seed,
		Take:  take,
		Noise: synth.Noise{Colour: synth.RoomNoise, ClickOver: 35},
		Phone: synth.Phone{Losses: losses},
	})
}

// planned is the truth of a recording, without the sound of it.
func planned(t testing.TB, r synth.Recording) synth.Truth {
	t.Helper()
	clip, err := r.Clip()
	if err != nil {
		t.Fatal(err)
	}
	return clip.Truth
}

// played16 is a recording of 16 bits, and its truth.
func played16(t testing.TB, r synth.Recording) (*played, synth.Truth) {
	t.Helper()
	r.Phone.Bits = 16
	clip, err := r.Clip()
	if err != nil {
		t.Fatal(err)
	}
	return &played{format: clip.Format(), frames: clip.Samples()[0]}, clip.Truth
}

// seeds are those of every case of hearing, chosen before any was heard: 1 to 12.
func seeds(yield func(uint64) bool) {
	for seed := uint64(1); seed <= 12 && yield(seed); seed++ {
	}
}

// heardIn is what is heard in a clip, told nothing else.
func heardIn(t testing.TB, src *played, clip int) []shutter.Firing {
	t.Helper()
	return hearKind(t, src, clip, shutter.Leaf).Firings
}

// hearKind is what is heard in a clip of a kind of shutter.
func hearKind(t testing.TB, src *played, clip int, kind shutter.Kind) hear.Heard {
	t.Helper()
	h, err := dsp.Listen(src)
	if err != nil {
		t.Fatal(err)
	}
	heard, err := hear.Find(t.Context(), h, src, hear.Options{Kind: kind, Clip: clip})
	if err != nil {
		t.Fatal(err)
	}
	return heard
}

// leaf is a leaf shutter wound by a ratchet.
func leaf(seed uint64) *synth.Shutter {
	s := synth.Draw(seed, synth.Leaf)
	s.Winding, s.Lever = synth.RatchetWinding, false
	return s
}

// slow is three settings of the dial.
func slow(count int) []synth.Setting {
	return []synth.Setting{{Label: "1/2", Nominal: 0.5, Count: count}, {Label: "1/8", Nominal: 0.125, Count: count}, {Label: "1/30", Nominal: 1.0 / 32, Count: count}}
}

// take fires a shutter through the settings, in less time than most people take, so
// that there are fewer seconds to render and to listen to.
func take(s *synth.Shutter, settings []synth.Setting) synth.Take {
	return synth.Take{Shutter: s, Settings: settings, Pause: [2]float64{0.4, 0.8}}
}

func TestFiringsKeepTheirClip(t *testing.T) {
	src, _ := recorded(t, 1, take(leaf(1), slow(2)))
	got := heardIn(t, src, 17)
	if len(got) == 0 {
		t.Fatal("no firing heard")
	}
	for i, f := range got {
		if f.Clip != 17 {
			t.Errorf("firing %d is of clip %d, want 17", i, f.Clip)
		}
	}
}

func TestAnErrorOfTheSourceIsPassedOn(t *testing.T) {
	src, _ := recorded(t, 1, synth.Take{Shutter: leaf(7), Settings: slow(3)[:1]})
	h, err := dsp.Listen(src)
	if err != nil {
		t.Fatal(err)
	}
	src.fail = errors.New("cable pulled")
	if heard, err := hear.Find(t.Context(), h, src, hear.Options{Kind: shutter.Leaf}); !errors.Is(err, src.fail) || heard.Firings != nil {
		t.Errorf("find = %v, %v, want none and %v", heard.Firings, err, src.fail)
	}
}

// Of so long a clip not every sound is asked how unusual a class is.
func TestFiringsOfALongPackedClipAreFoundLikeThoseOfAShortOne(t *testing.T) {
	t.Parallel()
	const times = 12
	once, truth := recorded(t, 1, synth.Take{Shutter: leaf(7), Settings: synth.Fire(synth.Modern()[:7], 3)})
	src := synth.Loop(once.format, once.frames, int64(times*len(once.frames)))
	h, err := dsp.Listen(src)
	if err != nil {
		t.Fatal(err)
	}
	got, err := hear.Find(t.Context(), h, src, hear.Options{Kind: shutter.Leaf})
	if err != nil {
		t.Fatal(err)
	}
	length := float64(len(once.frames)) / 48000
	var want []synth.Firing
	for n := range times {
		for _, f := range truth.Firings {
			for _, end := range []*float64{&f.Open.Start, &f.Open.Stop, &f.Close.Start, &f.Close.Stop} {
				*end += float64(n) * length
			}
			want = append(want, f)
		}
	}
	if c := compared(got.Firings, want); len(c.mistakes) > 0 {
		t.Errorf("%d mistakes in %d firings: %q", len(c.mistakes), len(want), c.mistakes)
	}
}

// The clip is listened to once; the rest is what it takes to find the firings in it
// and time them: 21 of them, or as many over and over in ten minutes.
func BenchmarkHear(b *testing.B) {
	const tenMinutes = 600 * 48000
	once, _ := recorded(b, 1, synth.Take{Shutter: leaf(7), Settings: synth.Fire(synth.Modern()[:7], 3)})
	for _, frames := range []int{len(once.frames), tenMinutes} {
		b.Run(fmt.Sprintf("%.1f min", float64(frames)/48000/60), func(b *testing.B) {
			src := synth.Loop(once.format, once.frames, int64(frames))
			h, err := dsp.Listen(src)
			if err != nil {
				b.Fatal(err)
			}
			var heard hear.Heard
			b.ReportAllocs()
			for b.Loop() {
				if heard, err = hear.Find(b.Context(), h, src, hear.Options{Kind: shutter.Leaf}); err != nil || len(heard.Firings) == 0 {
					b.Fatal(err, len(heard.Firings))
				}
			}
			perRun := float64(b.Elapsed().Nanoseconds()) / float64(b.N)
			b.ReportMetric(perRun/float64(frames), "ns/sample")
			b.ReportMetric(perRun/float64(len(heard.Firings)), "ns/firing")
		})
	}
}
