package main

import (
	"math"
	"strings"
	"testing"

	"earshot/dsp"
	"earshot/shutter"
)

func TestScatterIsAboutTheMeanOfTheClip(t *testing.T) {
	cases := []struct {
		name   string
		errors []float64
		want   float64
	}{
		{"an error common to all adds nothing", []float64{0.2, 0.2, 0.2, 0.2}, 0},
		{"2, 4, 4, 4, 5, 5, 7, 9 about 5", []float64{2, 4, 4, 4, 5, 5, 7, 9}, math.Sqrt(32.0 / 7)},
		{"the same, all late by 100", []float64{102, 104, 104, 104, 105, 105, 107, 109}, math.Sqrt(32.0 / 7)},
		{"one tells no scatter", []float64{3}, 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if got := scatter(c.errors); math.Abs(got-c.want) > 1e-12 {
				t.Errorf("scatter(%v) = %v, want %v", c.errors, got, c.want)
			}
		})
	}
}

func TestSinglePicksAreThePickedTransientsNearby(t *testing.T) {
	at := func(seconds float64, picked bool) dsp.Transient {
		x := dsp.Transient{Onset: 48000 * seconds}
		if picked {
			x.Spectrum = &dsp.Spectrum{}
		}
		return x
	}
	cases := []struct {
		name        string
		transients  []dsp.Transient
		open, close float64 // 0: none
	}{
		{"both", []dsp.Transient{at(1.0001, true), at(1.4998, true)}, 1.0001, 1.4998},
		{"the nearer of two", []dsp.Transient{at(0.997, true), at(1.002, true), at(1.5, true)}, 1.002, 1.5},
		{"a nearer one that was not picked", []dsp.Transient{at(1, false), at(1.002, true), at(1.5, true)}, 1.002, 1.5},
		{"none at the closing", []dsp.Transient{at(1, true), at(1.506, true)}, 0, 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			h := &dsp.Hearing{Format: dsp.Format{Rate: 48000, Channels: 1}, Transients: c.transients}
			open, close, ok := singlePicks(h, fired(1, 1.5), shutter.EdgeStart)
			if ok != (c.open > 0) {
				t.Fatalf("ok = %t", ok)
			}
			if ok && math.Max(math.Abs(open-c.open), math.Abs(close-c.close)) > 1e-9 {
				t.Errorf("singlePicks = %v, %v, want %v, %v", open, close, c.open, c.close)
			}
		})
	}
}

// No clip is told better than its bound allows by more than chance does: of 18 firings
// a standard deviation is out by a sixth of itself.
func TestAClipIsFinelyToldAndNotBelowItsBound(t *testing.T) {
	some, err := choose(conditions(), "pink noise, 24 dB")
	if err != nil {
		t.Fatal(err)
	}
	some[0].clips = 1
	outcomes, err := hearAll(some, 4)
	if err != nil {
		t.Fatal(err)
	}
	f := outcomes[0].fine
	if f == nil {
		t.Fatal("no fineness measured")
	}
	if f.aligned < f.bound/2 || f.single < f.bound/2 || f.bound < 1e-8 {
		t.Errorf("%+v: below the bound", *f)
	}
}

func TestWhetherItIsMetFollowsTheClips(t *testing.T) {
	clips := func(aligned ...float64) []fineBy {
		f := fineBy{name: "all at 30 dB"}
		for _, a := range aligned {
			f.clips = append(f.clips, fineness{over: 30, aligned: a})
		}
		return []fineBy{f}
	}
	cases := []struct {
		name string
		rows []fineBy
		want string
	}{
		{"all within", clips(1e-6, 2e-6, 9e-6), "3 of 3 clips are within. It is met."},
		{"one far off", clips(1e-6, 2e-6, 50e-6), "2 of 3 clips are within. It is **not met**."},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if got := fineReached(c.rows); !strings.Contains(got, c.want) {
				t.Errorf("fineReached = %q, want %q in it", got, c.want)
			}
		})
	}
}

func TestLevelsAreSummedUpOverTheColours(t *testing.T) {
	white, pink := newTally("white noise, 30 dB", core), newTally("pink noise, 30 dB", core)
	white.fine = []fineness{{over: 30, aligned: 1e-6, bound: 1e-6}}
	pink.fine = []fineness{{over: 30, aligned: 3e-6, bound: 1e-6}}
	rows := fineRows([]*tally{white, newTally("echo", core), pink})
	if len(rows) != 3 || rows[2].name != "all at 30 dB" {
		t.Fatalf("rows %+v, want both conditions and their level", rows)
	}
	if got := rows[2].of(0.5, alignedOf); math.Abs(got-2e-6) > 1e-12 {
		t.Errorf("median over both = %g, want 2e-6", got)
	}
}
