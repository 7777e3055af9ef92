package main

import (
	"fmt"
	"strings"
	"testing"

	"earshot/dsp/clip"
)

// frameLine is a line of the log for a frame, as ffmpeg 5.1 writes it.
func frameLine(pts, rate, samples any) string {
	return fmt.Sprintf("[Parsed_ashowinfo_0 @ 0x55ad3e9c] [info] n:7 pts:%v pts_time:0.02 pos:48 fmt:fltp channels:1 chlayout:mono rate:%v nb_samples:%v checksum:0D1AB395 plane_checksums: [ 0D1AB395 ] \n", pts, rate, samples)
}

// frames is the log of frames of 1024 samples at 48 kHz that begin at the times given.
func frames(times ...int) string {
	var log strings.Builder
	for _, pts := range times {
		log.WriteString(frameLine(pts, 48000, 1024))
	}
	return log.String()
}

func TestGuardLetsASoundTimeAxisPassAndNoOther(t *testing.T) {
	exact := facts{codec: "aac", rate: 48000, tick: 1.0 / 48000}
	states := func(k facts, seconds float64) facts { k.duration = seconds; return k }
	coarse := facts{codec: "opus", rate: 48000, tick: 1e-3}
	vorbis := facts{codec: "vorbis", rate: 48000, tick: 1.0 / 48000}
	for _, c := range []struct {
		name  string
		facts facts
		log   string
		want  string // part of the reason; empty for none
	}{
		{"frames without a gap", exact, frames(0, 1024, 2048), ""},
		{"a time axis that does not begin at 0", exact, frames(-312, 712, 1736), ""},
		{"a frame lost", exact, frames(0, 1024, 3072), "21.3 ms of sound are missing or doubled before 0.043 s"},
		{"a frame doubled", exact, frames(0, 1024, 1024), "21.3 ms of sound are missing or doubled before 0.043 s"},
		{"half a frame lost", exact, frames(0, 1024, 2560), "10.7 ms of sound are missing"},
		{"times of a millisecond's rounding", coarse, frames(0, 1008, 2064), ""},
		{"a clock that trembles", coarse, frames(0, 1024+400, 2048, 3072-400), ""},
		{"a frame lost by a coarse clock", coarse, frames(0, 1008, 3072), "missing or doubled"},
		{"Vorbis guessed within a page", vorbis, frames(0, 1024+448, 2048), ""},
		{"Vorbis that does not come back", vorbis, frames(0, 1024+448, 2048+448), "9.3 ms of sound are missing"},
		{"another rate", exact, frames(0) + frameLine(1024, 44100, 1024), "its sampling rate changes at 0.021 s from 48000 to 44100 Hz"},
		{"a frame without a time", exact, frames(0) + frameLine("NOPTS", 48000, 1024), "has no time or no length"},
		{"the length stated", states(exact, 3*1024/48000.), frames(0, 1024, 2048), ""},
		{"the length stated, less what coding adds", states(exact, 1100/48000.), frames(0, 1024, 2048), ""},
		{"a length that is not there", states(exact, 0.5), frames(0, 1024, 2048), "it states a length of 0.500 s and holds 0.064 s"},
		{"more than the length", states(exact, 0.01), frames(0, 1024, 2048), "it states a length of 0.010 s and holds more"},
		{"damage reported", exact, frames(0) + "[aac @ 0x1] [error] channel element 0.0 is not allocated\n" + frames(1024), "parts of it are damaged (channel element 0.0 is not allocated)"},
		{"a warning", exact, frames(0) + "[aac @ 0x1] [warning] something\n" + frames(1024), ""},
		{"a line that never ends", exact, frames(0) + strings.Repeat("x", 10*maxLine) + "\n" + frames(1024), ""},
		{"nothing at all", exact, "", ""},
	} {
		for _, size := range []int{1, 50, 1 << 20} {
			g := guarded(t, c.facts, []byte(c.log), size)
			if c.want == "" && g.reason != "" || !strings.Contains(g.reason, c.want) {
				t.Errorf("%s, in pieces of %d: reason %q, want %q", c.name, size, g.reason, c.want)
			}
		}
	}
}

// guarded gives a guard a log in pieces of a size.
func guarded(t *testing.T, k facts, log []byte, size int) guard {
	t.Helper()
	g := guard{facts: k}
	for len(log) > 0 {
		n, err := g.Write(log[:min(size, len(log))])
		if err != nil {
			t.Fatal(err)
		}
		log = log[n:]
	}
	g.end()
	return g
}

// FuzzGuard holds for any log: what is made of it does not depend on the pieces it comes
// in, and frames that were passed lie within what they may be off.
func FuzzGuard(f *testing.F) {
	f.Add([]byte(frames(0, 1024, 3072)), 7)
	f.Add([]byte(frames(-1024, 0)+"[aac @ 0x1] [error] x\n"), 1)
	f.Add([]byte(frameLine("NOPTS", "48000", "-5")), 3)
	f.Fuzz(func(t *testing.T, log []byte, size int) {
		k := facts{codec: "aac", rate: 48000, tick: 1.0 / 48000}
		whole, pieces := guarded(t, k, log, len(log)), guarded(t, k, log, max(1, size))
		if whole.reason != pieces.reason || whole.frames != pieces.frames {
			t.Errorf("whole: %q, %d frames; in pieces: %q, %d", whole.reason, whole.frames, pieces.reason, pieces.frames)
		}
		if off := whole.next - whole.first - whole.frames; whole.reason == "" && (off > 48 || off < -48) {
			t.Errorf("off by %d samples without a reason", off)
		}
		if whole.frames < 0 {
			t.Errorf("%d frames", whole.frames)
		}
	})
}

func TestWordsOfACodingNameItAndItsContainerOnce(t *testing.T) {
	for _, c := range []struct {
		facts  facts
		format string
		want   string
	}{
		{facts{codec: "aac", profile: "LC", bits: 127600}, "M4A", "AAC in M4A, 128 kbit/s"},
		{facts{codec: "aac", profile: "HE-AAC", bits: 32000}, "M4A", "HE-AAC in M4A, 32 kbit/s"},
		{facts{codec: "aac", profile: "HE-AACv2", bits: 32000}, "AAC", "HE-AAC in AAC, 32 kbit/s"},
		{facts{codec: "aac"}, "AAC", "AAC"},
		{facts{codec: "vorbis", bits: 80000}, "Ogg Vorbis", "Ogg Vorbis, 80 kbit/s"},
		{facts{codec: "flac", bits: 700000}, "FLAC", "FLAC"},
		{facts{codec: "pcm_s16le"}, "CAF", "PCM in CAF"},
		{facts{codec: "amr_nb", bits: 12200}, "3GP", "AMR in 3GP, 12 kbit/s"},
		{facts{codec: "gsm_ms", bits: 13000}, "MOV", "gsm_ms in MOV, 13 kbit/s"},
	} {
		if got := c.facts.words(clip.Format(c.format)); got != c.want {
			t.Errorf("%+v in %s: %q, want %q", c.facts, c.format, got, c.want)
		}
	}
}
