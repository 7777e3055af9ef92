package synth

import (
	"io"
	"math"
	"slices"
	"testing"

	"earshot/dsp"
)

// Both are sources.
var (
	_ dsp.Source = (*Clip)(nil)
	_ dsp.Source = (*Looped)(nil)
)

// busy is a recording in which everything that keeps a memory is at work.
func busy(seed uint64) Recording {
	return Recording{
		Seed:  seed,
		Take:  Take{Shutter: Draw(seed, Reflex), Settings: Fire(Modern()[1:4], 1), Distractors: []Distractor{{Kind: Speech, Every: 4}}},
		Room:  &Room{RT60: 0.2},
		Noise: Noise{RoomNoise, 30},
		Hum:   Hum{60, -20},
		Phone: Phone{Rate: 12000, Bits: 16,
			Mics:   []Mic{{}, {Gain: -2, Delay: 0.2e-3, Hiss: -70}},
			Auto:   &Auto{Target: -12, Most: 20, Attack: 2e-3, Release: 0.5},
			Gate:   &Gate{Threshold: -30, Hold: 0.1},
			Losses: []Loss{{At: 2.1, Length: 0.03, Dropped: true}, {At: 3.3, Length: 0.02}, {At: 4, Length: 1.9, Dropped: true}}},
	}
}

// readAll reads a source from end to end by so many frames at a time.
func readAll(t *testing.T, s dsp.Source, frames int) []float64 {
	t.Helper()
	var out []float64
	buf := make([]float64, frames*s.Format().Channels)
	for {
		n, err := s.ReadFrames(buf)
		out = append(out, buf[:n*s.Format().Channels]...)
		if err == io.EOF {
			return out
		}
		if err != nil || n == 0 {
			t.Fatalf("ReadFrames = %d, %v", n, err)
		}
	}
}

func TestEqualSeedsGiveEqualClipsAndOthersDiffer(t *testing.T) {
	a, b := readAll(t, mustClip(t, busy(1)), 4096), readAll(t, mustClip(t, busy(1)), 1000)
	if !slices.Equal(a, b) {
		t.Error("the same recording read by other blocks differs")
	}
	if slices.Equal(a, readAll(t, mustClip(t, busy(2)), 4096)) {
		t.Error("another seed gives the same clip")
	}
}

func TestReadingAnywhereGivesWhatReadingOnGives(t *testing.T) {
	c := mustClip(t, busy(3))
	all := readAll(t, mustClip(t, busy(3)), 5000)
	if int64(len(all)) != 2*c.Frames() {
		t.Fatalf("%d samples, want two a frame of %d", len(all), c.Frames())
	}
	buf := make([]float64, 2*777)
	for _, frame := range []int64{c.Frames() - 500, 0, c.Frames() / 2, 32768 - 3, 1, c.Frames()} {
		n, err := c.ReadFramesAt(buf, frame)
		want := all[2*frame : min(int64(len(all)), 2*(frame+777))]
		if err != nil || !slices.Equal(buf[:2*n], want) {
			t.Errorf("reading at %d: %d frames, %v; or not those read on", frame, n, err)
		}
	}
	first := make([]float64, 200)
	if n, err := c.ReadFrames(first); n != 100 || err != nil || !slices.Equal(first, all[:200]) {
		t.Error("reading anywhere moved what is read next")
	}
}

func TestSamplesAreTheChannelsOfWhatIsRead(t *testing.T) {
	ch := mustClip(t, busy(4)).Samples()
	all := readAll(t, mustClip(t, busy(4)), 4096)
	for i := range ch[0] {
		if ch[0][i] != all[2*i] || ch[1][i] != all[2*i+1] {
			t.Fatalf("frame %d differs", i)
		}
	}
}

func TestSoundsGoOnUnbrokenFromBlockToBlock(t *testing.T) {
	r := Recording{Seed: 5, Take: Take{Shutter: Draw(5, Reflex), Settings: Fire(Modern()[2:4], 1)}, Room: &Room{RT60: 0.1}, Hum: Hum{50, -20}}
	whole, cut := mustClip(t, r), mustClip(t, r)
	cut.block = 4999
	x, y := whole.Samples()[0], cut.Samples()[0]
	for i := range x {
		if math.Abs(x[i]-y[i]) > 1e-9 {
			t.Fatalf("sample %d is %g by long blocks, %g by short ones", i, x[i], y[i])
		}
	}
}

func TestNoiseGoesOnUnbrokenFromBlockToBlock(t *testing.T) {
	c := mustClip(t, Recording{Seed: 5, Take: Take{Length: 4}, Noise: Noise{RoomNoise, 20}})
	c.block = 2048
	x := c.Samples()[0]
	var within, across []float64
	for i := 1; i < len(x); i++ {
		if d := x[i] - x[i-1]; i%2048 == 0 {
			across = append(across, d)
		} else {
			within = append(within, d)
		}
	}
	if ratio := rms(across) / rms(within); ratio > 1.4 {
		t.Errorf("steps from block to block are %.2f times those within blocks", ratio)
	}
}

func TestALoopRepeatsItsSamplesToItsLength(t *testing.T) {
	l := Loop(dsp.Format{Rate: 8000, Channels: 2}, []float64{1, 2, 3, 4, 5, 6}, 8)
	want := []float64{1, 2, 3, 4, 5, 6, 1, 2, 3, 4, 5, 6, 1, 2, 3, 4}
	if got := readAll(t, l, 5); !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	buf := make([]float64, 6)
	if n, _ := l.ReadFramesAt(buf, 5); n != 3 || !slices.Equal(buf, []float64{5, 6, 1, 2, 3, 4}) {
		t.Errorf("reading at 5: %d frames, %v", n, buf)
	}
}

func BenchmarkAMinuteAtATable(b *testing.B) {
	for range b.N {
		r := Recording{Seed: 1, Noise: Noise{RoomNoise, 30}, Phone: Phone{Bits: 16},
			Take: Take{Shutter: Draw(1, Leaf), Settings: Fire(Modern()[:6], 3), Length: 60}}
		mustClip(b, r).Samples()
	}
}

func BenchmarkAMinuteInARoom(b *testing.B) {
	for range b.N {
		r := Recording{Seed: 1, Noise: Noise{RoomNoise, 30}, Room: &Room{RT60: 0.4}, Phone: Phone{Bits: 16},
			Take: Take{Shutter: Draw(1, Reflex), Settings: Fire(Modern()[:6], 3), Length: 60}}
		mustClip(b, r).Samples()
	}
}
