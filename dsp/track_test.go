package dsp

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestLevelsAreKeptToHalfADecibel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mean := rapid.Float64Range(-109.9, 9.9).Draw(t, "mean")
		peak := rapid.Float64Range(-109.9, 9.9).Draw(t, "peak")
		var track Track
		track.add(math.Pow(10, mean/10), math.Pow(10, peak/10))
		if track.Len() != 1 || math.Abs(track.Mean(0)-mean) > 0.2501 || math.Abs(track.Peak(0)-peak) > 0.2501 {
			t.Errorf("mean %.2f, peak %.2f dBFS; want %.2f and %.2f", track.Mean(0), track.Peak(0), mean, peak)
		}
	})
}

func TestLevelsBeyondTheScaleStayAtItsEnds(t *testing.T) {
	var track Track
	track.add(0, 1e6)
	if track.Mean(0) > -100 || math.Abs(track.Peak(0)-10) > 0.5 {
		t.Errorf("silence at %.1f dBFS, +60 dBFS at %.1f", track.Mean(0), track.Peak(0))
	}
}

func TestTrackTellsHowLoudItWasWhen(t *testing.T) {
	const rate = 48000
	x := bursts(rate, rate, 0.001)
	for k := rate / 2; k < rate/2+4800; k++ {
		x[k] *= 10 // 20 dB louder for 0.1 s
	}
	h := listen(t, Format{rate, 1}, x)
	for i := range h.Track.Len() {
		want, at := -60.0, i*h.Track.Step
		if at >= rate/2 && at+h.Track.Step <= rate/2+4800 {
			want = -40
		} else if at+h.Track.Step > rate/2-48 && at < rate/2+4848 {
			continue
		}
		if math.Abs(h.Track.Mean(i)-want) > 2 || h.Track.Peak(i) < h.Track.Mean(i) {
			t.Errorf("frame %d: mean %.1f, peak %.1f dBFS, want %.0f and no less", i, h.Track.Mean(i), h.Track.Peak(i), want)
		}
	}
}

func TestLevelsOfAStretchAreThoseOfItsFramesInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var track Track
		for _, db := range rapid.SliceOfN(rapid.Float64Range(-120, 12), 1, 60).Draw(t, "peaks") {
			track.add(0, math.Pow(10, db/10))
		}
		first := rapid.IntRange(0, track.Len()-1).Draw(t, "first")
		end := rapid.IntRange(first+1, track.Len()).Draw(t, "end")
		var want []float64
		for i := first; i < end; i++ {
			want = append(want, track.Peak(i))
		}
		slices.Sort(want)
		if got := track.Loudest(first, end); got != want[len(want)-1] {
			t.Errorf("the loudest is %g dBFS, want %g", got, want[len(want)-1])
		}
		if got := track.PeakQuantile(first, end, 0.25); got != want[len(want)/4] {
			t.Errorf("a quarter stays under %g dBFS, want %g", got, want[len(want)/4])
		}
	})
}

// Levels are half a decibel apart, each said to fill the half decibel about it: so
// the quantile of the frames in order lies within a quarter of a decibel.
func TestMeanLevelOfAStretchIsThatOfItsFramesInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var track Track
		for _, db := range rapid.SliceOfN(rapid.Float64Range(-110, 9), 1, 60).Draw(t, "means") {
			track.add(math.Pow(10, db/10), 1)
		}
		first := rapid.IntRange(0, track.Len()-1).Draw(t, "first")
		end := rapid.IntRange(first+1, track.Len()).Draw(t, "end")
		p := rapid.Float64Range(0, 0.999).Draw(t, "p")
		var sorted []float64
		for i := first; i < end; i++ {
			sorted = append(sorted, track.Mean(i))
		}
		slices.Sort(sorted)
		want := sorted[int(p*float64(len(sorted)))]
		got := track.MeanQuantile(first, end, p)
		if math.Abs(got-want) > 0.2501 {
			t.Errorf("%.3f of the frames stay under %.3f dBFS, want %.2f", p, got, want)
		}
		if more := track.MeanQuantile(first, end, (1+p)/2); more < got {
			t.Errorf("more of the frames stay under %.3f dBFS than under %.3f", more, got)
		}
	})
}

// Half a decibel is coarse for a steady level; the median of many frames is not.
func TestMedianOfManyFramesIsFinerThanTheirSteps(t *testing.T) {
	for _, want := range []float64{-60, -59.9, -59.8, -59.7, -59.6, -59.55} {
		rng := rand.New(rand.NewPCG(71, 72))
		var track Track
		for range 4000 {
			track.add(math.Pow(10, (want+0.6*rng.NormFloat64())/10), 1)
		}
		if got := track.MeanQuantile(0, track.Len(), 0.5); math.Abs(got-want) > 0.05 {
			t.Errorf("median = %.3f dBFS, want %.2f", got, want)
		}
	}
}
