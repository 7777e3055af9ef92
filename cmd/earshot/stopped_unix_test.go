//go:build unix

package main

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"earshot/cmd/internal/files"
	"earshot/cmd/internal/folder"
	"earshot/dsp"
	"earshot/dsp/synth"
	"earshot/dsp/wavfile"
)

// tapped writes a clip of ten taps a second, which takes as long to hear as any.
func tapped(t testing.TB, path string, seconds int) {
	t.Helper()
	const rate, loop = 48000, 30
	rng := rand.New(rand.NewPCG(1, 2))
	x := make([]float64, loop*rate)
	for i := range x {
		x[i] = 1e-4 * rng.NormFloat64()
	}
	for at := 0.05; at < loop-0.05; at += 0.07 + 0.06*rng.Float64() {
		loud := 0.2 + 0.2*rng.Float64()
		for i := range 480 {
			loud *= 0.985
			x[int(at*rate)+i] += loud * rng.NormFloat64()
		}
	}
	taps := synth.Loop(dsp.Format{Rate: rate, Channels: 1}, x, int64(seconds)*rate)
	if err := files.Write(t.Context(), path, func(f *os.File) error { return wavfile.Copy(f, taps) }); err != nil {
		t.Fatal(err)
	}
}

// stopped starts the program in a folder, sends it a signal after a time, and returns its
// exit code, what it said, and how long after the signal it ended. It is not ok where the
// signal came before the program had begun, or once it was over.
func stopped(t testing.TB, dir string, after time.Duration, sig syscall.Signal, ends int, args ...string) (code int, said string, late time.Duration, ok bool) {
	t.Helper()
	var errs bytes.Buffer
	cmd := exec.Command("earshot", args...)
	cmd.Dir, cmd.Stderr = dir, &errs
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	time.Sleep(after)
	begun := time.Now()
	sent := cmd.Process.Signal(sig)
	cmd.Wait()
	late = time.Since(begun)
	code = cmd.ProcessState.ExitCode()
	return code, errs.String(), late, sent == nil && code != ends && code != -1
}

// below are the files of a folder and of the folders in it, with their bytes.
func below(t testing.TB, dir string) map[string]string {
	t.Helper()
	found := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := os.ReadFile(path)
		found[strings.TrimPrefix(path, dir)] = string(b)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return found
}

// slowCommands are commands that take long, each with the folder that it is to run in.
func slowCommands(t testing.TB, seconds int) map[string]struct {
	dir  string
	args []string
} {
	t.Helper()
	clip, drawer, none, sheets := t.TempDir(), t.TempDir(), t.TempDir(), t.TempDir()
	tapped(t, filepath.Join(clip, "taps.wav"), seconds)
	for i := range 2 {
		tapped(t, filepath.Join(drawer, fmt.Sprintf("lens %d.wav", i+1)), seconds+30*i)
	}
	manyRecords(t, sheets)
	type command = struct {
		dir  string
		args []string
	}
	return map[string]command{
		"check":  {clip, []string{"check", "taps.wav", "--now", "2026-11-25", "--record", "record.json", "--labels", "labels.txt", "--chart", "chart.png"}},
		"sound":  {clip, []string{"sound", "taps.wav", "--chart", "sound.png"}},
		"clock":  {clip, []string{"clock", "taps.wav", "--json"}},
		"drawer": {drawer, []string{"drawer", ".", "--now", "2026-11-25"}},
		"demo":   {none, []string{"demo", "demo", "corvane-105.wav"}},
		"sheet":  {sheets, []string{"sheet", "record.json", "--out", "sheet.pdf"}},
		"chart":  {sheets, []string{"chart", "record.json", "--out", "chart.pdf"}},
		"man":    {none, []string{"man", "man"}},
	}
}

// manyRecords makes a folder of 300 records of one lens, and its clip.
func manyRecords(t testing.TB, dir string) {
	t.Helper()
	clip, record := filepath.Join(dir, "fired.wav"), filepath.Join(dir, "record.json")
	fired(t, clip)
	if code := run([]string{"check", clip, "--speeds", firedSpeeds, "--lens", "Corvane", "--serial", "7", "--record", record}, nil, new(bytes.Buffer), os.Stderr); code != exitDone {
		t.Fatalf("exit code %d", code)
	}
	for i := range 300 {
		if err := os.Link(record, filepath.Join(dir, fmt.Sprintf("record %d.json", i))); err != nil {
			t.Fatal(err)
		}
	}
}

// A command that is stopped at any moment ends with 130, and each file that it leaves is
// as an undisturbed run writes it.
func TestAnyCommandCanBeStoppedAtAnyMoment(t *testing.T) {
	t.Parallel()
	moments, seconds := 10, 600
	if testing.Short() {
		moments, seconds = 2, 30
	}
	for name, c := range slowCommands(t, seconds) {
		t.Run(name, func(t *testing.T) {
			before := below(t, c.dir)
			begun := time.Now()
			cmd := exec.Command("earshot", c.args...)
			cmd.Dir = c.dir
			cmd.Run()
			took, whole, ends := time.Since(begun), below(t, c.dir), cmd.ProcessState.ExitCode()
			caught := 0
			for i := range moments {
				restore(t, c.dir, before)
				sig, after := []syscall.Signal{syscall.SIGTERM, syscall.SIGINT}[i%2], took*time.Duration(2*i+1)/time.Duration(2*moments)
				code, said, late, ok := stopped(t, c.dir, after, sig, ends, c.args...)
				if !ok {
					continue
				}
				caught++
				t.Logf("after %v of %v: %v to the end after %v", after, took, late, sig)
				if code != exitInterrupted || !strings.Contains(said, "earshot: interrupted") {
					t.Errorf("exit code %d, want %d: %s", code, exitInterrupted, said)
				}
				for file, b := range below(t, c.dir) {
					if b != whole[file] {
						t.Errorf("%s is other than an undisturbed run writes it", file)
					}
				}
			}
			if caught == 0 {
				t.Log("it was over each time before it could be stopped")
			}
		})
	}
}

// restore takes away what a command wrote into a folder.
func restore(t *testing.T, dir string, before map[string]string) {
	t.Helper()
	for file := range below(t, dir) {
		if _, was := before[file]; !was {
			if err := os.Remove(filepath.Join(dir, file)); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// Work that looks for no signal is left behind, and so is what it was writing.
func TestACommandThatDoesNotEndIsLeftBehind(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	ended, err := endsSoon(ctx, func(context.Context) error {
		cancel()
		select {}
	})
	if ended || err != nil {
		t.Errorf("ended: %v, error %v", ended, err)
	}
}

// BenchmarkStopping tells how many ms pass from SIGTERM to the end of a program, at random
// moments of hearing ten minutes of taps.
func BenchmarkStopping(b *testing.B) {
	commands := slowCommands(b, 600)
	for _, name := range []string{"check", "drawer"} {
		c := commands[name]
		b.Run(name, func(b *testing.B) {
			rng := rand.New(rand.NewPCG(3, 4))
			var sum, most time.Duration
			for range b.N {
				os.RemoveAll(filepath.Join(c.dir, folder.ReportFolder))
				_, said, late, ok := stopped(b, c.dir, time.Duration((0.1+2*rng.Float64())*float64(time.Second)), syscall.SIGTERM, exitDone, c.args...)
				if !ok {
					b.Logf("not stopped: %s", said)
				}
				b.Logf("%v", late)
				sum, most = sum+late, max(most, late)
			}
			b.ReportMetric(float64(sum.Milliseconds())/float64(b.N), "ms/stop")
			b.ReportMetric(float64(most.Milliseconds()), "ms/longest")
		})
	}
}
