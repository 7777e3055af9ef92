package dsp

import (
	"errors"
	"io"
	"slices"
	"testing"
)

func TestWhatIsHeldIsReadOnceAndAtAnyPlace(t *testing.T) {
	h := &Held{Layout: Format{48000, 2}, Frames: []float64{1, -1, 2, -2, 3, -3}}
	block := make([]float64, 4)
	for _, want := range [][]float64{{1, -1, 2, -2}, {3, -3}} {
		n, err := h.ReadFrames(block)
		if got := block[:2*n]; err != nil || !slices.Equal(got, want) {
			t.Errorf("ReadFrames = %v, %v, want %v", got, err, want)
		}
		if n, err := h.ReadFramesAt(block, 1); n != 2 || err != nil || !slices.Equal(block, []float64{2, -2, 3, -3}) {
			t.Errorf("ReadFramesAt 1 = %v, %d frames, %v, want the last two", block, n, err)
		}
	}
	if n, err := h.ReadFrames(block); n != 0 || !errors.Is(err, io.EOF) {
		t.Errorf("ReadFrames at the end = %d, %v, want 0, EOF", n, err)
	}
	if n, err := h.ReadFramesAt(block, 9); n != 0 || err != nil {
		t.Errorf("ReadFramesAt behind the end = %d, %v, want none", n, err)
	}
}
