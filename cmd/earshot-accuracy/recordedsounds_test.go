package main

import (
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// The sounds come from Debian's package sound-theme-freedesktop, decoded by ffmpeg;
// none of them is part of this project.
//
//   - camera-shutter.oga: a camera with a motor, by freesound user horsthorstensen,
//     CC-BY-SA-3.0.
//   - alarm-clock-elapsed.oga: an alarm clock, by Tim/corsica_s, CC-BY-SA-3.0, of
//     which only the quiet of the room between two rings is used.
const recordedDir = "/usr/share/sounds/freedesktop/stereo"

// recordedSounds are the pieces that recordings are made of.
type recordedSounds struct {
	opening, closing []float64 // from the first audible sample on
	motor            []float64
	quiet            [][]float64 // passages of the room's noise
}

// openRecorded decodes and cuts the sounds, or skips the test.
func openRecorded(t *testing.T) *recordedSounds {
	t.Helper()
	camera := decodeRecorded(t, "camera-shutter.oga")
	alarm := decodeRecorded(t, "alarm-clock-elapsed.oga")
	s := &recordedSounds{
		opening: cutClick(t, camera, 0.1490, 0.025),
		closing: cutClick(t, camera, 0.1985, 0.025),
		motor:   faded(cut(camera, 0.230, 0.375), 0.010),
	}
	for _, at := range [][2]float64{{0.86, 1.38}, {1.96, 2.46}, {3.12, 3.58}, {4.24, 4.88}} {
		s.quiet = append(s.quiet, cut(alarm, at[0], at[1]))
	}
	return s
}

// decodeRecorded returns the left channel of a sound at recordedRate.
func decodeRecorded(t *testing.T, name string) []float64 {
	t.Helper()
	path := filepath.Join(recordedDir, name)
	if _, err := os.Stat(path); err != nil {
		missing(t, "sound-theme-freedesktop", err)
	}
	if !hasFFmpeg() {
		missing(t, ffmpegName, exec.ErrNotFound)
	}
	x, err := decode(path)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return x
}

func missing(t *testing.T, pkg string, err error) {
	t.Helper()
	if *needRecordings {
		t.Fatalf("%v: install Debian's package %s", err, pkg)
	}
	t.Skipf("%v: install Debian's package %s to run this", err, pkg)
}

// cut is x from one time to another, s.
func cut(x []float64, from, to float64) []float64 {
	return append([]float64(nil), x[int(from*recordedRate):int(to*recordedRate)]...)
}

// faded lets x begin and end softly, over a time in s.
func faded(x []float64, over float64) []float64 {
	n := int(over * recordedRate)
	for i := range n {
		x[i] *= float64(i) / float64(n)
		x[len(x)-1-i] *= float64(i) / float64(n)
	}
	return x
}

// cutClick cuts the click that begins after a time, s, from its first audible sample
// on, for a length in s, and lets it die away over the last 5 ms.
func cutClick(t *testing.T, x []float64, after, length float64) []float64 {
	t.Helper()
	first, ok := firstAudible(x, int(after*recordedRate))
	if !ok {
		t.Fatalf("no click after %.4f s", after)
	}
	click := append([]float64(nil), x[first:first+int(length*recordedRate)]...)
	fade := recordedRate / 200
	for i := range fade {
		click[len(click)-1-i] *= float64(i) / float64(fade)
	}
	return click
}

// firstAudible is the first sample from a sample on that is four times as large as
// the largest of the 2 ms before that: 12 dB over what was to be heard until then.
// It knows nothing of how detection picks an onset.
func firstAudible(x []float64, from int) (int, bool) {
	before := 0.0
	for _, v := range x[from-recordedRate/500 : from] {
		before = max(before, math.Abs(v))
	}
	for i := from; i < from+recordedRate/500; i++ {
		if math.Abs(x[i]) >= 4*before {
			return i, true
		}
	}
	return 0, false
}

// noise adds the room's noise to x, so that the clicks' mean power over their loudest
// 2 ms is over dB above its own, both above 500 Hz. Grains of the quiet passages, from
// anywhere in them, overlap by half with windows whose powers add up to one.
func (s *recordedSounds) noise(rnd *rand.Rand, x []float64, over float64) {
	const grain = recordedRate / 5
	noise := make([]float64, len(x)+grain)
	for at := 0; at < len(x); at += grain / 2 {
		from := s.quiet[rnd.IntN(len(s.quiet))]
		first := rnd.IntN(len(from) - grain)
		for i := range grain {
			noise[at+i] += from[first+i] * math.Sin(math.Pi*(float64(i)+0.5)/grain)
		}
	}
	click := min(loudest(above500(s.opening)), loudest(above500(s.closing)))
	gain := math.Sqrt(click/meanPower(above500(noise))) * decibelGain(-over)
	mix(x, noise[:len(x)], 0, gain)
}

// above500 is x through two first-order high-passes at 500 Hz.
func above500(x []float64) []float64 {
	keep := math.Exp(-2 * math.Pi * 500 / recordedRate)
	y := append([]float64(nil), x...)
	for range 2 {
		before, out := 0.0, 0.0
		for i, v := range y {
			out = keep * (out + v - before)
			before, y[i] = v, out
		}
	}
	return y
}
