//go:build unix

package hear_test

import (
	"context"
	"errors"
	"math/rand/v2"
	"syscall"
	"testing"
	"time"

	"earshot/dsp"
	"earshot/dsp/synth"
	"earshot/shutter"
	"earshot/shutter/hear"
)

// busy is a clip that takes seconds to make sense of: taps that are hardly unlike each
// other, so often that a great many pairs of them may be firings.
func busy(seconds int) dsp.Source {
	const rate, loop = 48000, 30
	rng := rand.New(rand.NewPCG(1, 2))
	x := make([]float64, loop*rate)
	for i := range x {
		x[i] = 1e-4 * rng.NormFloat64()
	}
	for at := 0.1; at < loop-0.1; at += 0.15 + 0.2*rng.Float64() {
		loud := 0.2 + 0.2*rng.Float64()
		for i := range 480 {
			loud *= 0.985
			x[int(at*rate)+i] += loud * rng.NormFloat64()
		}
	}
	return synth.Loop(dsp.Format{Rate: rate, Channels: 1}, x, int64(seconds)*rate)
}

// A clip can be given up at any moment of hearing it, and hearing ends soon after, whatever
// it was at: it is tried at a few moments of clips of which one has most to pair, one most
// fast firings to look for, and one most firings to time. What counts is the time of the
// processor, since other programs may run, and the best of a few trials.
func TestHearingEndsSoonOnceItsContextIsDone(t *testing.T) {
	const trials, moments, soon = 3, 3, 150 * time.Millisecond
	once, _ := recorded(t, 1, synth.Take{Shutter: leaf(7), Settings: synth.Fire(synth.Modern()[:7], 3)})
	for name, src := range map[string]dsp.Source{
		"taps for a minute": busy(60), "taps for five minutes": busy(300),
		"firings for ten minutes": synth.Loop(once.format, once.frames, 600*48000),
	} {
		h, err := dsp.Listen(src)
		if err != nil {
			t.Fatal(err)
		}
		started := time.Now()
		if _, err := hear.Find(t.Context(), h, src, hear.Options{Kind: shutter.Leaf}); err != nil {
			t.Fatal(err)
		}
		whole := time.Since(started)
		t.Logf("%s: %d transients, heard in %v", name, len(h.Transients), whole)
		for part := range moments {
			after := whole * time.Duration(part) / (moments + 1)
			late := time.Duration(1 << 62)
			for range trials {
				ctx, cancel := context.WithTimeout(t.Context(), after)
				done := make(chan time.Duration, 1)
				context.AfterFunc(ctx, func() { done <- worked(t) })
				heard, err := hear.Find(ctx, h, src, hear.Options{Kind: shutter.Leaf})
				now := worked(t)
				if cancel(); err == nil {
					continue // it was quicker this time
				}
				if !errors.Is(err, context.DeadlineExceeded) || heard.Firings != nil {
					t.Fatalf("given up after %v: %v firings and %v, want none and that time is up", after, len(heard.Firings), err)
				}
				if late = min(late, now-<-done); late < soon {
					break
				}
			}
			if late > soon && late < 1<<62 {
				t.Errorf("%s, given up after %v of %v: ended %v later, want at most %v", name, after, whole, late, soon)
			}
		}
	}
}

// worked is how long the processor has worked for these tests.
func worked(t *testing.T) time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		t.Error(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

func TestAClipIsNotHeardOnceItsContextIsDone(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if heard, err := hear.Clip(ctx, busy(30), hear.Options{Kind: shutter.Leaf}); !errors.Is(err, context.Canceled) || heard.Firings != nil {
		t.Errorf("%d firings and %v, want none and that it was cancelled", len(heard.Firings), err)
	}
}
