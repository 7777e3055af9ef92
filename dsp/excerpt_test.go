package dsp

import (
	"errors"
	"math"
	"testing"

	"earshot/dsp/internal/num"
)

// distant fails wherever it is read again.
type distant struct {
	Held
	err error
}

func (d *distant) ReadFramesAt([]float64, int64) (int, error) { return 0, d.err }

func TestExcerptIsWhatWasListenedTo(t *testing.T) {
	const rate, n = 48000, 24000
	left, right := bursts(rate, n, 0.01, 5000, 12000), bursts(rate, n, 0.003, 9000)
	src := &Held{Layout: Format{rate, 2}, Frames: interleave(left, right)}
	for channel, x := range [][]float64{left, right} {
		whole := make([]float64, n)
		newHighpass(rate).filter(whole, x, 0, 1)
		for _, from := range []int64{4000, 8990, 11999, 20000} {
			got, err := Excerpt(src, channel, from, 1500)
			if err != nil || len(got) != 1500 {
				t.Fatalf("%d samples, %v", len(got), err)
			}
			for k, v := range got {
				if math.Abs(v-whole[int(from)+k]) > 1e-6 {
					t.Fatalf("channel %d, sample %d of the excerpt at %d = %g, want %g", channel, k, from, v, whole[int(from)+k])
				}
			}
		}
	}
}

func TestThereIsNothingOutsideOfTheClip(t *testing.T) {
	const rate, n = 48000, 9600
	src := &Held{Layout: Format{rate, 1}, Frames: bursts(rate, n, 0.01, 5000)}
	before, err := Excerpt(src, 0, -3000, 3100)
	if err != nil {
		t.Fatal(err)
	}
	for k, v := range before[:3000] {
		if v != 0 {
			t.Fatalf("sample %d before the start = %g, want 0", 3000-k, v)
		}
	}
	if num.MeanSquare(before[3000:]) == 0 {
		t.Error("nothing after the start either")
	}
	after, err := Excerpt(src, 0, n-100, 2100)
	if err != nil {
		t.Fatal(err)
	}
	// The filter rings on for some cycles of its corner, 96 samples each.
	if loud := math.Sqrt(num.MeanSquare(after[1100:])); loud > 1e-6 {
		t.Errorf("RMS well after the end = %g, want silence", loud)
	}
}

func TestAnExcerptThatCannotBeReadSaysWhy(t *testing.T) {
	src := &distant{Held{Layout: Format{48000, 1}}, errors.New("card removed")}
	if _, err := Excerpt(src, 0, 1000, 100); !errors.Is(err, src.err) {
		t.Errorf("Excerpt: %v, want %v", err, src.err)
	}
}

// An offset in the samples begins and ends with the clip; neither is a sound.
func TestAnOffsetMakesNoClickWhereTheClipEnds(t *testing.T) {
	const rate, n = 48000, 24000
	x := bursts(rate, n, 0.0003)
	for i := range x {
		x[i] += 0.05
	}
	src := &Held{Layout: Format{rate, 1}, Frames: x}
	for _, from := range []int64{-500, 0, n - 500} {
		e, err := Excerpt(src, 0, from, 1000)
		if err != nil {
			t.Fatal(err)
		}
		for i, v := range e {
			if v > 0.005 || v < -0.005 {
				t.Fatalf("from %d: sample %d is %.4f, want nothing above the noise", from, i, v)
			}
		}
	}
}
