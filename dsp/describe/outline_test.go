package describe

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"earshot/dsp"
)

// distant fails wherever it is read again.
type distant struct {
	dsp.Source
	err error
}

func (d *distant) ReadFramesAt([]float64, int64) (int, error) { return 0, d.err }

// bursts is mono noise of the given level with a decaying burst of noise of
// amplitude 0.3 at each of the samples.
func bursts(rate, n int, noise float64, at ...int) []float64 {
	rng := rand.New(rand.NewPCG(11, 12))
	x := make([]float64, n)
	for i := range x {
		x[i] = noise * rng.NormFloat64()
	}
	for _, k := range at {
		for i := 0; i < rate/50 && k+i < n; i++ {
			x[k+i] += 0.3 * math.Exp(-float64(i)/(0.003*float64(rate))) * rng.NormFloat64()
		}
	}
	return x
}

func TestAnOutlineSwingsAsTheSamplesDo(t *testing.T) {
	const rate, n = 48000, 200_000 // several blocks
	src := &dsp.Held{Layout: dsp.Format{Rate: rate, Channels: 1}, Frames: bursts(rate, n, 0.01, 5000, 70_000, 140_000)}
	whole, err := dsp.Excerpt(src, 0, 0, n)
	if err != nil {
		t.Fatal(err)
	}
	const columns = 400
	got, err := Outline(src, 0, 0, n, columns)
	if err != nil || len(got) != columns {
		t.Fatalf("%d columns, %v", len(got), err)
	}
	for k, c := range got {
		least, most := math.Inf(1), math.Inf(-1)
		for _, v := range whole[k*n/columns : (k+1)*n/columns] {
			least, most = math.Min(least, v), math.Max(most, v)
		}
		if math.Abs(c.Min-least) > 1e-6 || math.Abs(c.Max-most) > 1e-6 {
			t.Fatalf("column %d swings from %g to %g, want %g to %g", k, c.Min, c.Max, least, most)
		}
	}
}

func TestAnOutlineShowsEveryClickHoweverFewTheColumns(t *testing.T) {
	const rate, n = 48000, 96_000
	x := make([]float64, n)
	x[10_000], x[60_000] = 0.5, 0.5
	got, err := Outline(&dsp.Held{Layout: dsp.Format{Rate: rate, Channels: 1}, Frames: x}, 0, 0, n, 12)
	if err != nil {
		t.Fatal(err)
	}
	for k, c := range got {
		if clicks := k == 10_000*12/n || k == 60_000*12/n; clicks != (c.Max > 0.1) {
			t.Errorf("column %d reaches %g, click %v", k, c.Max, clicks)
		}
	}
}

func TestTheLevelOfAToneIsItsRMS(t *testing.T) {
	const rate, n = 48000, 48_000
	x := make([]float64, n)
	for i := range x {
		x[i] = 0.5 * math.Sin(2*math.Pi*4000*float64(i)/rate) // far above the corner of the filter
	}
	got, err := Outline(&dsp.Held{Layout: dsp.Format{Rate: rate, Channels: 1}, Frames: x}, 0, 24_000, 24_480, 480) // one sample a column
	if err != nil {
		t.Fatal(err)
	}
	for k, c := range got[48:] {
		if want := 20 * math.Log10(0.5/math.Sqrt2); math.Abs(c.Level-want) > 0.2 {
			t.Fatalf("column %d: %g dBFS, want %g", k, c.Level, want)
		}
	}
}

func TestTheLevelOfASoundBeginsNoSoonerThanTheSound(t *testing.T) {
	const rate, at = 48000, 24_000
	x := make([]float64, 2*at)
	for i := at; i < len(x); i++ {
		x[i] = 0.5 * math.Sin(2*math.Pi*4000*float64(i-at)/rate)
	}
	got, err := Outline(&dsp.Held{Layout: dsp.Format{Rate: rate, Channels: 1}, Frames: x}, 0, at-100, at+100, 200)
	if err != nil {
		t.Fatal(err)
	}
	for k, c := range got {
		if heard := c.Level > -60; heard != (k > 100) { // the first sample of a sine is 0
			t.Fatalf("column %d from the onset: %g dBFS", k-100, c.Level)
		}
	}
}

func TestAnOutlineOutsideOfTheClipIsSilent(t *testing.T) {
	src := &dsp.Held{Layout: dsp.Format{Rate: 48000, Channels: 1}, Frames: bursts(48000, 9600, 0.01, 100)}
	got, err := Outline(src, 0, -4800, 0, 50)
	if err != nil {
		t.Fatal(err)
	}
	for k, c := range got {
		if c.Min != 0 || c.Max != 0 || c.Level > -100 || math.IsInf(c.Level, 0) {
			t.Fatalf("column %d before the start: %+v", k, c)
		}
	}
}

func TestAnOutlineOfWhatCannotBeReadSaysSo(t *testing.T) {
	lost := errors.New("lost")
	src := &distant{&dsp.Held{Layout: dsp.Format{Rate: 48000, Channels: 1}, Frames: make([]float64, 9600)}, lost}
	if _, err := Outline(src, 0, 0, 480, 10); !errors.Is(err, lost) {
		t.Errorf("error %v, want the source's", err)
	}
}
