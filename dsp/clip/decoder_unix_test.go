//go:build unix

package clip

import (
	"bytes"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"earshot/dsp/wavfile"
)

// coded is a file that is taken for FLAC. What it holds only its decoder knows.
const coded = "fLaC\x00\x00\x00\x22 and so on"

// decodeBy makes a shell script the decoder of this test, and keeps temporary files in
// a folder of the test's own, which it returns. $WAV is a file of three samples.
func decodeBy(t *testing.T, script string) (temporary string) {
	t.Helper()
	dir, temporary := t.TempDir(), t.TempDir()
	t.Setenv("TMPDIR", temporary)
	t.Setenv("WAV", write(t, "three.wav", wavOf(16384, -32768, 1)))
	t.Setenv("PATH", dir+string(os.PathListSeparator)+os.Getenv("PATH"))
	if err := os.WriteFile(filepath.Join(dir, decoderName), []byte("#!/bin/sh\n"+script+"\n"), 0o700); err != nil {
		t.Fatal(err)
	}
	return temporary
}

// nothingIn wants a folder to hold nothing.
func nothingIn(t *testing.T, folder string) {
	t.Helper()
	if left, err := os.ReadDir(folder); err != nil || len(left) > 0 {
		t.Errorf("left behind: %v, %v", left, err)
	}
}

const threeFrames = `{"encoding":"FLAC","frames":3,"warnings":[{"Code":"x","Message":"y"}]}`

func TestAClipOfAnotherFormatIsReadAsItsDecoderWritesIt(t *testing.T) {
	temporary := decodeBy(t, `echo "note: wait" >&2; cat "$WAV"; echo '`+threeFrames+`' >&2`)
	path := write(t, "clip.flac", []byte(coded))
	var notes bytes.Buffer
	c, err := OpenContext(t.Context(), path, &notes)
	if err != nil {
		t.Fatal(err)
	}
	got, err := readThrough(c)
	if err != nil || !cmp.Equal(got, []float64{0.5, -1, 1.0 / 32768}) {
		t.Errorf("samples %v, %v", got, err)
	}
	at := make([]float64, 1)
	if n, err := c.ReadFramesAt(at, 1); n != 1 || err != nil || at[0] != -1 {
		t.Errorf("ReadFramesAt(1) = %d, %v, %v", n, err, at[0])
	}
	if sum, err := c.SHA256(); err != nil || sum != sha256.Sum256([]byte(coded)) {
		t.Errorf("SHA256() = %x, %v; want that of the file, not of what it was decoded to", sum, err)
	}
	if c.Encoding() != "FLAC" || notes.String() != "earshot: wait\n" {
		t.Errorf("encoding %q, notes %q", c.Encoding(), notes.String())
	}
	if d := cmp.Diff([]Warning{{Code: "x", Message: "y"}}, c.Warnings()); d != "" {
		t.Errorf("warnings (-want +got):\n%s", d)
	}
	if err := c.Close(); err != nil {
		t.Error(err)
	}
	nothingIn(t, temporary)
}

func TestADecodersStreamedHeaderIsNoDoubt(t *testing.T) {
	file := wavOf(1, 2, 3)
	copy(file[40:], "\xff\xff\xff\xff") // the length of the samples, left open
	decodeBy(t, `cat "$STREAMED"; echo '{"encoding":"FLAC","frames":3}' >&2`)
	t.Setenv("STREAMED", write(t, "streamed.wav", file))
	c, err := Open(write(t, "clip.flac", []byte(coded)))
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	if w := c.Warnings(); len(w) > 0 {
		t.Errorf("warnings %v", w)
	}
	if plain, err := wavfile.NewReader(bytes.NewReader(file), int64(len(file)), "x"); err != nil || len(plain.Warnings()) != 1 {
		t.Errorf("the same file is to be doubted as WAV: %v", err)
	}
}

func TestADecoderThatRefusesOrGoesWrongIsSaidOnOneLine(t *testing.T) {
	const export = "; " + HintExport
	for _, c := range []struct {
		name, script, want string
		code               Code
	}{
		{"it refuses", `cat "$WAV"; echo '{"refusal":{"code":"damaged","message":"it has holes","hint":"try again"}}' >&2; exit 1`, "it has holes; try again", Damaged},
		{"it refuses and ends well", `echo '{"refusal":{"code":"damaged","message":"it has holes","hint":"try again"}}' >&2`, "it has holes; try again", Damaged},
		{"it fails after a report", `cat "$WAV"; echo '` + threeFrames + `' >&2; exit 7`, "the decoder failed: exit status 7" + export, DecoderFailed},
		{"it says nothing", `cat "$WAV"`, "the decoder ended without a report" + export, DecoderFailed},
		{"it crashes", `echo "panic: out of memory" >&2; echo "goroutine 1" >&2; exit 2`, "the decoder ended without a report: exit status 2: panic: out of memory" + export, DecoderFailed},
		{"it is killed", `kill -9 $$`, "the decoder ended without a report: signal: killed" + export, DecoderFailed},
		{"its samples are fewer", `cat "$WAV"; echo '{"encoding":"FLAC","frames":4}' >&2`, "the decoder reports 4 frames and wrote 3" + export, DecoderFailed},
		{"it talks without end", `while echo aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa >&2; do i=$((i+1)); [ $i -lt 20000 ] || exit 3; done`, "the decoder ended without a report: exit status 3: " + strings.Repeat("a", 52) + export, DecoderFailed},
	} {
		temporary := decodeBy(t, c.script)
		checkRefusal(t, c.name, write(t, "clip.flac", []byte(coded)), Error{Code: c.code, Message: c.want})
		nothingIn(t, temporary)
	}
}

// limitedRun runs the script on a clip, within limits.
func limitedRun(t *testing.T, ctx context.Context, script string, longest time.Duration, most int64) error {
	t.Helper()
	temporary := decodeBy(t, script)
	f, err := os.Open(write(t, "clip.flac", []byte(coded)))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	s, err := newScratch()
	if err != nil {
		t.Fatal(err)
	}
	defer nothingIn(t, temporary)
	defer s.Close()
	d, err := findDecoder()
	if err != nil {
		t.Fatal(err)
	}
	d.longest, d.most = longest, most
	return d.run(ctx, f, &decoded{scratch: s}, new(bytes.Buffer))
}

func TestADecoderThatTakesTooLongOrWritesTooMuchIsEnded(t *testing.T) {
	for name, err := range map[string]error{
		"it takes too long":  limitedRun(t, t.Context(), "exec sleep 600", 50*time.Millisecond, MaxDecoded),
		"it writes too much": limitedRun(t, t.Context(), `while cat "$WAV"; do :; done`, maxDecoding, 100000),
	} {
		var e *Error
		if !errors.As(err, &e) || e.Code != TooLong {
			t.Errorf("%s: %v, want the code %s", name, err, TooLong)
		}
	}
}

func TestAnInterruptionEndsTheDecoder(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	time.AfterFunc(50*time.Millisecond, cancel)
	if err := limitedRun(t, ctx, "exec sleep 600", maxDecoding, MaxDecoded); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v, want the context's error", err)
	}
}

func TestAnInterruptionThatReachesTheDecoderFirstIsStillOne(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	time.AfterFunc(50*time.Millisecond, cancel)
	if err := limitedRun(t, ctx, "kill -2 $$", maxDecoding, MaxDecoded); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v, want the context's error", err)
	}
}

func TestAFullOrMissingFolderForTemporaryFilesIsNamed(t *testing.T) {
	decodeBy(t, `cat "$WAV"; echo '`+threeFrames+`' >&2`)
	missing := filepath.Join(t.TempDir(), "gone")
	t.Setenv("TMPDIR", missing)
	checkRefusal(t, "no folder", write(t, "clip.flac", []byte(coded)), Error{Code: NoRoom,
		Message: fmt.Sprintf("it can't be decoded into the folder %s: no such file or directory; make room there, or name another folder in TMPDIR", missing)})
	full, err := os.OpenFile("/dev/full", os.O_RDWR, 0)
	if err != nil {
		t.Skip("no device that is always full here")
	}
	d, err := findDecoder()
	if err != nil {
		t.Fatal(err)
	}
	to := &decoded{scratch: &scratch{File: full}}
	defer to.Close()
	var e *Error
	if err := d.run(t.Context(), nil, to, new(bytes.Buffer)); !errors.As(err, &e) || e.Code != NoRoom {
		t.Errorf("a full disk: %v, want the code %s", err, NoRoom)
	}
}
