package shutter_test

import (
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"testing"

	"earshot/dsp"
	"earshot/dsp/synth"
	"earshot/shutter"
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
func recorded(t testing.TB, take synth.Take, losses ...synth.Loss) (*played, synth.Truth) {
	t.Helper()
	return recordedWith(t, 6, take, losses...)
}

// recordedWith is recorded with what happens by chance drawn from a seed.
func recordedWith(t testing.TB, seed uint64, take synth.Take, losses ...synth.Loss) (*played, synth.Truth) {
	t.Helper()
	clip, err := synth.Recording{
		Seed:  seed,
		Take:  take,
		Noise: synth.Noise{Colour: synth.RoomNoise, ClickOver: 35},
		Phone: synth.Phone{Bits: 16, Losses: losses},
	}.Clip()
	if err != nil {
		t.Fatal(err)
	}
	return &played{format: clip.Format(), frames: clip.Samples()[0]}, clip.Truth
}

func hear(t testing.TB, src *played, clip int) []shutter.Firing {
	t.Helper()
	h, err := dsp.Listen(src)
	if err != nil {
		t.Fatal(err)
	}
	firings, err := shutter.Hear(h, src, clip)
	if err != nil {
		t.Fatal(err)
	}
	return firings
}

// ends are the true ends of a firing by an edge.
func ends(f synth.Firing, edge shutter.Edge) (open, close float64) {
	if edge == shutter.EdgeStop {
		return f.Open.Stop, f.Close.Stop
	}
	return f.Open.Start, f.Close.Start
}

// wantHeard wants every true firing heard, in order, and no other; an end may be
// heard a little later than it is, and the duration is nearer than that.
func wantHeard(t *testing.T, got []shutter.Firing, want []synth.Firing) {
	t.Helper()
	const late, off = 0.0012, 0.0003 // s
	if len(got) != len(want) {
		t.Fatalf("%d firings, want %d: %+v", len(got), len(want), got)
	}
	for i, f := range got {
		open, close := ends(want[i], f.Edge)
		if math.Abs(f.Open-open) > late {
			t.Errorf("firing %d opens at %.5f s by its %s, want %.5f", i, f.Open, f.Edge, open)
		}
		if !want[i].Closes {
			continue
		}
		if d := f.Duration() - (close - open); !f.Closed || math.Abs(d) > off {
			t.Errorf("firing %d lasts %.5f s by its %s, want %.5f", i, f.Duration(), f.Edge, close-open)
		}
		if f.Unfit != "" || f.U <= 0 || f.U > off {
			t.Errorf("firing %d: unfit %q, u = %g s", i, f.Unfit, f.U)
		}
	}
}

// leaf is a leaf shutter wound by a ratchet.
func leaf(seed uint64) *synth.Shutter {
	s := synth.Draw(seed, synth.Leaf)
	s.Winding, s.Lever = synth.RatchetWinding, false
	return s
}

func slow(count int) []synth.Setting {
	return []synth.Setting{{Label: "1/2", Nominal: 0.5, Count: count}, {Label: "1/8", Nominal: 0.125, Count: count}, {Label: "1/30", Nominal: 1.0 / 32, Count: count}}
}

func TestFiringsAreFoundAndTimed(t *testing.T) {
	soft, silent := leaf(3), leaf(4)
	soft.Soft = true
	silent.BeatRate = 0
	tests := []struct {
		name string
		take synth.Take
	}{
		{"firings wound by a ratchet in between are found", synth.Take{Shutter: leaf(7), Settings: slow(3)}},
		{"blades that start softly are timed by what is heard of both ends", synth.Take{Shutter: soft, Settings: slow(3)}},
		{"a shutter that never buzzes is found", synth.Take{Shutter: silent, Settings: slow(3)}},
		{"a single firing with a buzz is found", synth.Take{Shutter: leaf(7), Settings: slow(1)[:1]}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			src, truth := recorded(t, tt.take)
			wantHeard(t, hear(t, src, 0), truth.Firings)
		})
	}
}

func TestNoFiringIsHeardWhereNoneWas(t *testing.T) {
	const length = 12 // s
	distracted := func(kind synth.Noisemaker, every float64) synth.Take {
		return synth.Take{Shutter: leaf(7), Length: length, Distractors: []synth.Distractor{{Kind: kind, Every: every}}}
	}
	tests := []struct {
		name string
		take synth.Take
	}{
		{"in noise", synth.Take{Length: length}},
		{"in knocks", distracted(synth.Knock, 2)},
		{"in winding alone", distracted(synth.Cranking, 3)},
		{"in a clock's ticks", synth.Take{Length: length, Clock: &synth.Clock{Every: 0.5, Jitter: 0.0005}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			src, truth := recorded(t, tt.take)
			if len(truth.Firings) != 0 {
				t.Fatal("the recording has a firing")
			}
			if got := hear(t, src, 0); len(got) != 0 {
				t.Errorf("%d firings heard: %+v", len(got), got)
			}
		})
	}
	t.Run("in digital silence", func(t *testing.T) {
		src := &played{format: dsp.Format{Rate: 48000, Channels: 1}, frames: make([]float64, 48000*length)}
		if got := hear(t, src, 0); len(got) != 0 {
			t.Errorf("%d firings heard: %+v", len(got), got)
		}
	})
}

func TestAFiringThatHangsDoesNotClose(t *testing.T) {
	s := leaf(7)
	s.Faults = []synth.Fault{{Symptom: synth.HangsOpen, Grade: 4, Share: 0.25, Marks: []string{"1/8"}}}
	src, truth := recorded(t, synth.Take{Shutter: s, Settings: []synth.Setting{{Label: "1/8", Nominal: 0.125, Count: 4}}})
	got := hear(t, src, 0)
	wantHeard(t, got, truth.Firings)
	for i, f := range truth.Firings {
		if !f.Closes && (got[i].Closed && got[i].Duration() < 3 || got[i].Unfit != "") {
			t.Errorf("firing %d hung, heard to last %.3f s, unfit %q", i, got[i].Duration(), got[i].Unfit)
		}
	}
	if !slices.ContainsFunc(truth.Firings, func(f synth.Firing) bool { return !f.Closes }) {
		t.Fatal("none of the firings hung")
	}
}

func TestAFiringCutOffByTheClipsEndIsUnfit(t *testing.T) {
	src, truth := recorded(t, synth.Take{Shutter: leaf(7), Settings: slow(4)[:1]})
	last := truth.Firings[3]
	src.frames = src.frames[:int((last.Open.Start+last.Close.Start)/2*48000)]
	got := hear(t, src, 0)
	if len(got) != 4 {
		t.Fatalf("%d firings, want 4: %+v", len(got), got)
	}
	wantHeard(t, got[:3], truth.Firings[:3])
	if f := got[3]; f.Closed || f.Unfit == "" || f.Duration() != 0 || f.Close != 0 {
		t.Errorf("the last firing is %+v, want one that never closed and is unfit", f)
	}
}

func TestSamplesLostInsideAFiringMakeItUnfit(t *testing.T) {
	take := synth.Take{Shutter: leaf(7), Settings: slow(4)[:1]}
	_, truth := recorded(t, take)
	middle := (truth.Firings[1].Open.Start + truth.Firings[1].Close.Start) / 2
	between := (truth.Firings[2].Close.Start + truth.Firings[3].Open.Start) / 2
	src, _ := recorded(t, take, synth.Loss{At: middle, Length: 0.04}, synth.Loss{At: between, Length: 0.04})
	got := hear(t, src, 0)
	if len(got) != 4 {
		t.Fatalf("%d firings, want 4: %+v", len(got), got)
	}
	for i, f := range got {
		if unfit := f.Unfit != ""; unfit != (i == 1) {
			t.Errorf("firing %d is unfit %q", i, f.Unfit)
		}
	}
}

// A closing that fell into a gap is no fault of the shutter's.
func TestAClosingLostInAGapIsNotTakenForBladesThatHang(t *testing.T) {
	take := synth.Take{Shutter: leaf(7), Settings: slow(4)[:1]}
	for seed := range uint64(6) {
		_, truth := recordedWith(t, seed, take)
		src, _ := recordedWith(t, seed, take, synth.Loss{At: truth.Firings[1].Close.Start - 0.02, Length: 0.08})
		for i, f := range hear(t, src, 0) {
			if !f.Closed && f.Unfit == "" {
				t.Errorf("seed %d: firing %d never closes, and nothing is said of the gap", seed, i)
			}
		}
	}
}

func TestFiringsKeepTheirClipAndTheOrderOfTime(t *testing.T) {
	src, _ := recorded(t, synth.Take{Shutter: leaf(9), Settings: slow(3)})
	got := hear(t, src, 17)
	if len(got) == 0 {
		t.Fatal("no firing heard")
	}
	for i, f := range got {
		if f.Clip != 17 {
			t.Errorf("firing %d is of clip %d, want 17", i, f.Clip)
		}
		if i > 0 && f.Open <= got[i-1].Close || f.Edge != got[0].Edge {
			t.Errorf("firing %d, by its %s, begins at %.3f s; the one before, by its %s, ends at %.3f", i, f.Edge, f.Open, got[0].Edge, got[i-1].Close)
		}
	}
}

func TestAnErrorOfTheSourceIsPassedOn(t *testing.T) {
	src, _ := recorded(t, synth.Take{Shutter: leaf(7), Settings: slow(3)[:1]})
	h, err := dsp.Listen(src)
	if err != nil {
		t.Fatal(err)
	}
	src.fail = errors.New("cable pulled")
	if firings, err := shutter.Hear(h, src, 0); !errors.Is(err, src.fail) || firings != nil {
		t.Errorf("Hear = %v, %v, want none and %v", firings, err, src.fail)
	}
}

// Of so long a clip not every sound is asked how unusual a class is.
func TestFiringsOfALongPackedClipAreFoundLikeThoseOfAShortOne(t *testing.T) {
	const times = 12
	once, truth := recorded(t, synth.Take{Shutter: leaf(7), Settings: synth.Fire(synth.Modern()[:7], 3)})
	src := synth.Loop(once.format, once.frames, int64(times*len(once.frames)))
	h, err := dsp.Listen(src)
	if err != nil {
		t.Fatal(err)
	}
	got, err := shutter.Hear(h, src, 0)
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
	wantHeard(t, got, want)
}

// The clip is listened to once; the rest is what it takes to find the firings in it
// and time them: 21 of them, or as many over and over in ten minutes.
func BenchmarkHear(b *testing.B) {
	const tenMinutes = 600 * 48000
	once, _ := recorded(b, synth.Take{Shutter: leaf(7), Settings: synth.Fire(synth.Modern()[:7], 3)})
	for _, frames := range []int{len(once.frames), tenMinutes} {
		b.Run(fmt.Sprintf("%.1f min", float64(frames)/48000/60), func(b *testing.B) {
			src := synth.Loop(once.format, once.frames, int64(frames))
			h, err := dsp.Listen(src)
			if err != nil {
				b.Fatal(err)
			}
			var heard []shutter.Firing
			b.ReportAllocs()
			for b.Loop() {
				if heard, err = shutter.Hear(h, src, 0); err != nil || len(heard) == 0 {
					b.Fatal(err, len(heard))
				}
			}
			perRun := float64(b.Elapsed().Nanoseconds()) / float64(b.N)
			b.ReportMetric(perRun/float64(frames), "ns/sample")
			b.ReportMetric(perRun/float64(len(heard)), "ns/firing")
		})
	}
}
