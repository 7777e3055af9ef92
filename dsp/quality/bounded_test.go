package quality

import (
	"errors"
	"testing"

	"earshot/dsp"
	"earshot/dsp/synth"
)

// again counts the frames that are read again, and fails from one on.
type again struct {
	*synth.Looped
	frames, failsAt int
}

var errGone = errors.New("the card was pulled out")

func (a *again) ReadFramesAt(dst []float64, frame int64) (int, error) {
	a.frames += len(dst) / a.Format().Channels
	if a.failsAt > 0 && a.frames > a.failsAt {
		return 0, errGone
	}
	return a.Looped.ReadFramesAt(dst, frame)
}

// looped is a plain recording at 8 kHz, repeated to a length in s, and what is heard in
// it.
func looped(t *testing.T, seconds int64) (*again, *dsp.Hearing) {
	t.Helper()
	r := plain(6)
	r.Phone.Rate = 8000
	c, err := r.Clip()
	if err != nil {
		t.Fatal(err)
	}
	src := &again{Looped: synth.Loop(c.Format(), c.Samples()[0], seconds*8000)}
	h, err := dsp.Listen(src)
	if err != nil {
		t.Fatal(err)
	}
	return src, h
}

func TestALongClipIsReadAgainNoMoreThanAShortOne(t *testing.T) {
	const most = mostQuiet*4096 + mostLoud*(512+3*160) // frames at 8 kHz, with what filters need to settle
	for _, seconds := range []int64{60, 1200} {
		src, h := looped(t, seconds)
		if _, err := Measure(h, src); err != nil {
			t.Fatal(err)
		}
		if src.frames == 0 || src.frames > most {
			t.Errorf("%d s: %d frames are read again, want at most %d", seconds, src.frames, most)
		}
	}
}

func TestTheErrorOfTheSourceComesBack(t *testing.T) {
	src, h := looped(t, 60)
	for failsAt := 1; failsAt < 60000; failsAt += 7919 {
		src.frames, src.failsAt = 0, failsAt
		if _, err := Measure(h, src); err != nil && !errors.Is(err, errGone) || err == nil && src.frames > failsAt {
			t.Errorf("failing after %d frames: %v", failsAt, err)
		}
	}
}
