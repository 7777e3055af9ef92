//go:build unix

package clip

import (
	"io"
	"net"
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"earshot/dsp"
	"earshot/dsp/wavfile"
)

func TestPipesSocketsAndDevicesAreRefusedAtOnce(t *testing.T) {
	dir, err := os.MkdirTemp("", "clip") // short: the name of a socket has a limit
	if err != nil {
		t.Fatal(err)
	}
	defer os.RemoveAll(dir)
	pipe, socket := filepath.Join(dir, "pipe"), filepath.Join(dir, "socket")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Fatal(err)
	}
	listener, err := net.Listen("unix", socket)
	if err != nil {
		t.Fatal(err)
	}
	defer listener.Close()
	const save = "; save the recording to a file first and name that"
	checkRefusal(t, "a pipe", pipe, Error{Code: NotAFile, Message: "this is a pipe, and a clip must be read more than once" + save})
	checkRefusal(t, "a socket", socket, Error{Code: NotAFile, Message: "this is a socket" + save})
	checkRefusal(t, "a device", os.DevNull, Error{Code: NotAFile, Message: "this is a device" + save})
}

func TestAFileOneMayNotReadIsRefused(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Skip("root may read everything")
	}
	path := write(t, "clip.wav", wavOf(1))
	if err := os.Chmod(path, 0); err != nil {
		t.Fatal(err)
	}
	checkRefusal(t, "no permission", path, Error{Code: Unreadable, Message: "you may not read this file; change its permissions, or copy it to where you may read it"})
}

// BenchmarkTenMinutes opens, reads and sums a file of ten minutes at 48 kHz, one
// channel of 16 bits. The processor's time is what counts on a busy machine.
func BenchmarkTenMinutes(b *testing.B) {
	path := tenMinutes(b)
	for _, c := range []struct {
		name string
		read func(*Clip) error
	}{
		{"samples and checksum", func(c *Clip) error {
			if err := readBlocks(c); err != nil {
				return err
			}
			_, err := c.SHA256()
			return err
		}},
		{"checksum alone", func(c *Clip) error { _, err := c.SHA256(); return err }},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			start := cpuTime()
			for b.Loop() {
				clip, err := Open(path)
				if err != nil {
					b.Fatal(err)
				}
				if err := c.read(clip); err != nil {
					b.Fatal(err)
				}
				clip.Close()
			}
			spent := float64((cpuTime() - start).Nanoseconds()) / float64(b.N)
			b.ReportMetric(spent/1e6, "cpu-ms/clip")
			b.ReportMetric(spent/(600*48000), "cpu-ns/sample")
		})
	}
}

func tenMinutes(b *testing.B) string {
	path := filepath.Join(b.TempDir(), "long.wav")
	f, err := os.Create(path)
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	w, err := wavfile.NewWriter(f, dsp.Format{Rate: 48000, Channels: 1})
	if err != nil {
		b.Fatal(err)
	}
	second := make([]float64, 48000)
	for i := range second {
		second[i] = float64(i*i%65536-32768) / 32768
	}
	for range 600 {
		if err := w.WriteFrames(second); err != nil {
			b.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		b.Fatal(err)
	}
	return path
}

func readBlocks(c *Clip) error {
	buf := make([]float64, 4096)
	for {
		if _, err := c.ReadFrames(buf); err == io.EOF {
			return nil
		} else if err != nil {
			return err
		}
	}
}

// cpuTime is what this process has used of the processor so far.
func cpuTime() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
