package hear_test

import (
	"fmt"
	"testing"

	"earshot/dsp/synth"
)

// Asked is asked.clips; this is what it attains so far.
func TestAFiringCutOffByTheClipsEndIsUnfit(t *testing.T) {
	t.Parallel()
	wantRight(t, 3.0/12, func(seed uint64) []string {
		src, truth := recorded(t, seed, take(leaf(seed), slow(4)[:1]))
		last := truth.Firings[3]
		src.frames = src.frames[:int((last.Open.Start+last.Close.Start)/2*48000)]
		got := heardIn(t, src, 0)
		if len(got) != 4 {
			return []string{fmt.Sprintf("%d firings, want 4", len(got))}
		}
		mistakes := compared(got[:3], truth.Firings[:3]).mistakes
		if f := got[3]; f.Closed || f.Unfit == "" || f.Duration() != 0 || f.Close != 0 {
			mistakes = append(mistakes, fmt.Sprintf("the last is %+v, want one that never closed and is unfit", f))
		}
		return mistakes
	})
}

// Asked is asked.clips; this is what it attains so far.
func TestSamplesLostInsideAFiringMakeItUnfit(t *testing.T) {
	t.Parallel()
	wantRight(t, 10.0/12, func(seed uint64) (mistakes []string) {
		take := take(leaf(seed), slow(4)[:1])
		truth := planned(t, synth.Recording{Seed: seed, Take: take})
		middle := (truth.Firings[1].Open.Start + truth.Firings[1].Close.Start) / 2
		between := (truth.Firings[2].Close.Start + truth.Firings[3].Open.Start) / 2
		src, _ := recorded(t, seed, take, synth.Loss{At: middle, Length: 0.04}, synth.Loss{At: between, Length: 0.04})
		got := heardIn(t, src, 0)
		if len(got) != 4 {
			return []string{fmt.Sprintf("%d firings, want 4", len(got))}
		}
		for i, f := range got {
			if unfit := f.Unfit != ""; unfit != (i == 1) {
				mistakes = append(mistakes, fmt.Sprintf("firing %d is unfit %q", i+1, f.Unfit))
			}
		}
		return mistakes
	})
}

// A closing that fell into a gap is no fault of the shutter's.
func TestAClosingLostInAGapIsNotTakenForBladesThatHang(t *testing.T) {
	t.Parallel()
	wantRight(t, 1, func(seed uint64) (mistakes []string) {
		take := take(leaf(seed), slow(4)[:1])
		src, _ := recorded(t, seed, take, synth.Loss{At: planned(t, synth.Recording{Seed: seed, Take: take}).Firings[1].Close.Start - 0.02, Length: 0.08})
		for i, f := range heardIn(t, src, 0) {
			if !f.Closed && f.Unfit == "" {
				mistakes = append(mistakes, fmt.Sprintf("firing %d never closes, and nothing is said of the gap", i+1))
			}
		}
		return mistakes
	})
}
