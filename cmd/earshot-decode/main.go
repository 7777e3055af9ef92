// Command earshot-decode turns a recording in a phone's format into WAV, for earshot:
//
//	earshot-decode <clip.m4a >clip.wav
//
// It reads the clip from standard input, which must be a file, and writes 32-bit float
// WAV to standard output as it goes. The last line on standard error is a report in
// JSON (clip.Report); lines before it that begin with "note: " are for a person. It
// exits with 0 if the WAV is whole and its times are the clip's, else with 1.
//
// ffmpeg decodes, compiled to WebAssembly: in a sandbox that sees this one file, no
// other, no environment and no network, within a fixed memory. The process is
// earshot's to end when it takes too long.
package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"codeberg.org/gruf/go-ffmpreg/embed"

	"earshot/dsp/clip"
)

func main() {
	report, err := decode(context.Background(), os.Stdin, os.Stdout, os.Stderr)
	if err != nil {
		report = clip.Report{Refusal: refusal(err)}
	}
	line, _ := json.Marshal(report)
	fmt.Fprintf(os.Stderr, "%s\n", line)
	if err != nil {
		os.Exit(1)
	}
}

// decode decodes the file to out as WAV and reports what it was.
func decode(ctx context.Context, file *os.File, out, notes io.Writer) (clip.Report, error) {
	sandbox, format, err := open(file)
	if err != nil {
		return clip.Report{}, err
	}
	e, err := newEngine(ctx, cacheFolder(), notes)
	if err != nil {
		return clip.Report{}, err
	}
	embed.Free() // 20 MB, compiled by now
	k, err := e.probe(ctx, sandbox, format)
	if err != nil {
		return clip.Report{}, err
	}
	if err := k.refuse(sandbox.size, format); err != nil {
		return clip.Report{}, err
	}
	g := guard{facts: k}
	rc, err := e.run(ctx, "ffmpeg", sandbox, untilFailed{out, &g}, &g, arguments(k, format)...)
	if err != nil {
		return clip.Report{}, err
	}
	g.end()
	switch {
	case g.reason != "":
		return clip.Report{}, damaged(format, g.reason)
	case rc != 0:
		return clip.Report{}, damaged(format, "the decoder does not say why")
	case g.frames == 0:
		return clip.Report{}, &clip.Error{Code: clip.Empty, Message: fmt.Sprintf("there is no sound in this %s", format), Hint: hintRecord}
	}
	warnings, err := endOf(sandbox, format)
	return clip.Report{Encoding: k.words(format), Frames: g.frames, Warnings: append(k.warnings(), warnings...)}, err
}

// endOf is the doubt about a clip that may be cut short where nothing states its length.
func endOf(file oneFile, f clip.Format) ([]clip.Warning, error) {
	if f.Demuxer() != "ogg" {
		return nil, nil
	}
	missing, err := endMissing(file)
	if !missing {
		return nil, err
	}
	return []clip.Warning{{Code: cutShort, Message: "the end of the file is not marked as its end: it may be cut short; read to the cut"}}, err
}

// arguments make ffmpeg decode the first sound of the clip to WAV, with a line of its log for
// each frame. Opus is decoded by libopus: ffmpeg's own decoder differs from it at low rates by
// a third of the signal.
func arguments(k facts, f clip.Format) []string {
	var args []string
	if k.codec == "opus" {
		args = append(args, "-c:a", "libopus")
	}
	args = append(args, input(f)...)
	return append(args, "-nostdin", "-nostats", "-loglevel", "repeat+level+info",
		"-map", "0:a:0", "-map_metadata", "-1", "-af", "ashowinfo",
		"-c:a", "pcm_f32le", "-bitexact", "-f", "wav", "-protocol_whitelist", "pipe", "pipe:1")
}

// open looks at what was given as standard input.
func open(file *os.File) (oneFile, clip.Format, error) {
	info, err := file.Stat()
	if err != nil {
		return oneFile{}, "", err
	}
	if !info.Mode().IsRegular() {
		return oneFile{}, "", errors.New("no clip was given: earshot-decode <clip.m4a >clip.wav")
	}
	head := make([]byte, min(info.Size(), clip.SniffBytes))
	if _, err := io.ReadFull(io.NewSectionReader(file, 0, info.Size()), head); err != nil {
		return oneFile{}, "", err
	}
	f := clip.Sniff(head)
	if f.Demuxer() == "" {
		return oneFile{}, "", &clip.Error{Code: clip.FormatNotRead, Message: "this is no format that is decoded here", Hint: clip.HintExport}
	}
	return oneFile{file, info.Size()}, f, nil
}

// Advice that a refusal ends with.
const (
	hintRecord = "record again, and see that the recorder saves the file before it is copied"
	hintCopy   = "copy it again from the phone, or record as WAV"
)

// damaged is for a clip whose time axis can't be trusted.
func damaged(f clip.Format, reason string) error {
	return &clip.Error{Code: clip.Damaged, Message: fmt.Sprintf("this %s can't be timed: %s", f, reason), Hint: hintCopy}
}

// refusal is an error as it is reported.
func refusal(err error) *clip.Error {
	var e *clip.Error
	if errors.As(err, &e) {
		return e
	}
	reason := err.Error()
	var p *fs.PathError
	if errors.As(err, &p) {
		reason = p.Err.Error()
	}
	return &clip.Error{Code: clip.DecoderFailed, Message: "the decoder failed: " + reason, Hint: clip.HintExport}
}
