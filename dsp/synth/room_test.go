package synth

import (
	"math"
	"testing"
)

// decayTime is the reverberation time of a response by Schroeder's backward
// integration, from the straight stretch between −5 and −25 dB.
func decayTime(h []float64, rate float64) float64 {
	left := make([]float64, len(h)+1)
	for i := len(h) - 1; i >= 0; i-- {
		left[i] = left[i+1] + h[i]*h[i]
	}
	at := func(dB float64) float64 {
		for i := range h {
			if 10*math.Log10(left[i]/left[0]) <= dB {
				return float64(i) / rate
			}
		}
		return math.NaN()
	}
	return 3 * (at(-25) - at(-5))
}

func TestReverberationTimeIsAsStated(t *testing.T) {
	for _, want := range []float64{0.3, 0.4, 0.5} {
		room := Room{RT60: want, Distance: 1, Bare: true}
		sum := 0.0
		for seed := range uint64(16) {
			h := make([]float64, int(want*48000))
			room.diffuse(newDice(seed, 0), h, 48000)
			sum += decayTime(h, 48000) / 16
		}
		// The response is cut at −60 dB, which shortens what is measured by little.
		if math.Abs(sum-want) > 0.015*want {
			t.Errorf("RT60 measured %.3f s, want %.3f within 1.5 %%", sum, want)
		}
	}
}

func TestTheRoomAnswersAsStronglyAsTheDistanceSays(t *testing.T) {
	for _, room := range []Room{{RT60: 0.4, Distance: 0.1}, {RT60: 0.5, Distance: 0.3, Volume: 80}} {
		h := room.response(newDice(1, 4), 48000)
		energy := 0.0
		for _, v := range h[int(0.004*48000):] {
			energy += v * v
		}
		got := -10 * math.Log10(energy)
		if want := room.DirectOverReverb(); got > want+0.1 || got < want-4 {
			t.Errorf("direct over reverberant %.1f dB, want %.1f or a little less for the single reflections", got, want)
		}
	}
	near, far := Room{RT60: 0.4, Distance: 0.1}.DirectOverReverb(), Room{RT60: 0.4, Distance: 0.2}.DirectOverReverb()
	if math.Abs(near-far-6.02) > 0.01 {
		t.Errorf("twice the distance costs %.2f dB, want 6.02", near-far)
	}
}

func TestEchoIsTheConvolutionWithTheRoomsResponse(t *testing.T) {
	d := newDice(8, 0)
	h, dry := make([]float64, 37), make([]float64, 37+100)
	for i := range h {
		h[i] = d.NormFloat64()
	}
	for i := range dry {
		dry[i] = d.NormFloat64()
	}
	got := make([]float64, 100)
	newEcho(h, 100).add(got, dry)
	for i := range got {
		want := 0.0
		for k, v := range h {
			want += v * dry[37+i-k]
		}
		if math.Abs(got[i]-want) > 1e-12 {
			t.Fatalf("sample %d = %g, want %g", i, got[i], want)
		}
	}
}

func TestARoomLeavesOnsetsWhereTheyAre(t *testing.T) {
	r := Recording{Seed: 7, Take: Take{Shutter: bareShutter(7), Settings: Fire(Modern()[3:5], 2)}}
	clean := mustClip(t, r).Samples()[0]
	r.Room = &Room{RT60: 0.4}
	c := mustClip(t, r)
	x := c.Samples()[0]
	f := c.Truth.Firings[0].Open.Start
	if before := loudestIn(x, 0, f, 48000); before > 1e-12 {
		t.Errorf("%g is heard before the first sound", before)
	}
	for i := int(math.Ceil(f * 48000)); i < int((f+0.05e-3)*48000); i++ {
		if math.Abs(x[i]-clean[i]) > 1e-12 {
			t.Errorf("sample %d: %g in the room, %g without", i, x[i], clean[i])
		}
	}
	tail := c.Truth.Firings[0].Close.Stop + 0.15
	if loudestIn(x, tail, tail+0.05, 48000) <= loudestIn(clean, tail, tail+0.05, 48000) {
		t.Error("no echo is heard after a closing")
	}
}
