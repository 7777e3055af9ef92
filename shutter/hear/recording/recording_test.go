package recording

import (
	"context"
	"errors"
	"math"
	"slices"
	"testing"

	"earshot/dsp"
)

// silent is a source of nothing, without end.
type silent struct{ rate int }

func (s silent) Format() dsp.Format                               { return dsp.Format{Rate: s.rate, Channels: 1} }
func (s silent) ReadFrames(dst []float64) (int, error)            { clear(dst); return len(dst), nil }
func (s silent) ReadFramesAt(dst []float64, _ int64) (int, error) { return s.ReadFrames(dst) }

func TestAClipIsToldInSecondsWhateverItsRate(t *testing.T) {
	for _, rate := range []int{8000, 44100, 96000} {
		r := int64(rate)
		c := Of(&dsp.Hearing{
			Format: dsp.Format{Rate: rate, Channels: 1}, Frames: 10 * r,
			Gaps: []dsp.Gap{{Start: r, End: 2 * r}, {Start: 5 * r, End: 6 * r}},
		}, silent{rate})
		if got := c.Duration(); got != 10 {
			t.Errorf("at %d Hz it lasts %v s, want 10", rate, got)
		}
		if got := c.Onset(&dsp.Transient{Onset: 3.5 * float64(rate)}); got != 3.5 {
			t.Errorf("at %d Hz an onset is at %v s, want 3.5", rate, got)
		}
		if got, want := c.Lost(), [][2]float64{{1, 2}, {5, 6}}; !slices.Equal(got, want) {
			t.Errorf("at %d Hz samples were lost at %v, want %v", rate, got, want)
		}
		if got, want := c.Frames([]float64{0.5, 2}), []int64{r / 2, 2 * r}; !slices.Equal(got, want) {
			t.Errorf("at %d Hz 0.5 s and 2 s are frames %v, want %v", rate, got, want)
		}
	}
}

func TestAnEmptyClipHasNoLevel(t *testing.T) {
	var c Clip
	if got := c.Level(1, 2, 0.5); !math.IsInf(got, -1) {
		t.Errorf("its level is %v", got)
	}
}

func TestNothingIsReadOnceTheContextIsDone(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	src := Until(ctx, silent{48000})
	if n, err := src.ReadFramesAt(make([]float64, 8), 0); n != 8 || err != nil {
		t.Fatalf("before it is done: %d, %v", n, err)
	}
	cancel()
	if _, err := src.ReadFrames(make([]float64, 8)); !errors.Is(err, context.Canceled) {
		t.Errorf("ReadFrames: %v, want that it was cancelled", err)
	}
	c := Of(&dsp.Hearing{Format: src.Format()}, silent{48000})
	if _, err := c.Strike(ctx, 1, 1, 1); !errors.Is(err, context.Canceled) {
		t.Errorf("Strike: %v, want that it was cancelled", err)
	}
}
