package main

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"

	"earshot/dsp/clip"
)

// mp4Box is a box of ISO/IEC 14496-12: its size, its kind, and what it holds.
func mp4Box(kind string, holds ...[]byte) []byte {
	body := bytes.Join(holds, nil)
	return append(append(binary.BigEndian.AppendUint32(nil, uint32(8+len(body))), kind...), body...)
}

// words are numbers of 32 bits.
func words(x ...uint32) []byte {
	var b []byte
	for _, v := range x {
		b = binary.BigEndian.AppendUint32(b, v)
	}
	return b
}

// tableOf is a film without a picture whose table of contents states so many packets, of
// which the file holds none.
func tableOf(packets uint32) []byte {
	entry := mp4Box("sowt", words(0, 1, 0, 0, 1<<16|16, 0, 48000<<16))
	table := mp4Box("stbl", mp4Box("stsd", words(0, 1), entry), mp4Box("stts", words(0, 1, packets, 1024)),
		mp4Box("stsc", words(0, 1, 1, 1, 1)), mp4Box("stsz", words(0, 1, packets)), mp4Box("stco", words(0, 1, 100)))
	media := mp4Box("mdia", mp4Box("mdhd", words(0, 0, 0, 48000, 48000, 0)), mp4Box("hdlr", words(0, 0), []byte("soun"), make([]byte, 13)), mp4Box("minf", table))
	track := mp4Box("trak", mp4Box("tkhd", words(7, 0, 0, 1, 0, 1000, 0, 0, 0, 0, 0x10000, 0, 0, 0, 0x10000, 0, 0, 0, 0x40000000, 0, 0)), media)
	return append(mp4Box("ftyp", []byte("M4A \x00\x00\x02\x00M4A ")), mp4Box("moov", track)...)
}

// deep is box in box in box.
func deep(boxes int) []byte {
	b := mp4Box("ftyp", []byte("M4A \x00\x00\x02\x00M4A "))
	for left := boxes; left > 0; left-- {
		b = append(binary.BigEndian.AppendUint32(b, uint32(8*left)), "moov"...)
	}
	return b
}

// sounds is an Ogg file in which as many sounds of Opus begin, and none goes on (RFC 3533
// and 7845).
func sounds(n int) []byte {
	var b []byte
	for i := range uint32(n) {
		page := append([]byte("OggS\x00\x02"), make([]byte, 8)...)
		page = binary.LittleEndian.AppendUint32(page, i)
		page = append(page, 0, 0, 0, 0, 0, 0, 0, 0, 1, 19)
		page = append(page, "OpusHead\x01\x02\x38\x01\x80\xbb\x00\x00\x00\x00\x00"...)
		binary.LittleEndian.PutUint32(page[22:], crc32of(page))
		b = append(b, page...)
	}
	return b
}

// crc32of is the checksum of a page of Ogg.
func crc32of(b []byte) (sum uint32) {
	for _, x := range b {
		sum ^= uint32(x) << 24
		for range 8 {
			carry := sum & 0x80000000
			if sum <<= 1; carry != 0 {
				sum ^= 0x04c11db7
			}
		}
	}
	return sum
}

// peakOf runs a program and returns the most memory it had resident, in KiB, as far as
// looking at it a hundred times a second shows. What the system reports of a child that
// has ended begins with what its parent held when it was made.
func peakOf(t *testing.T, cmd *exec.Cmd) (peak int64) {
	t.Helper()
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	ended := make(chan struct{})
	go func() {
		cmd.Wait()
		close(ended)
	}()
	for {
		select {
		case <-ended:
			return peak
		case <-time.After(10 * time.Millisecond):
		}
		status, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", cmd.Process.Pid))
		if err != nil {
			continue
		}
		if _, rest, ok := strings.Cut(string(status), "VmHWM:"); ok {
			if kib, err := strconv.ParseInt(strings.Fields(rest)[0], 10, 64); err == nil {
				peak = max(peak, kib)
			}
		}
	}
}

// Three thousand sounds in 140 KB took 540 MB: what the sandbox had was copied each time
// it grew.
func TestAFileThatStatesMuchTakesLittleMemory(t *testing.T) {
	if testing.Short() {
		t.Skip("it decodes large files, to see what memory that takes")
	}
	withDecoder(t)
	if _, err := newEngine(t.Context(), cacheFolder(), new(bytes.Buffer)); err != nil { // fills the cache
		t.Fatal(err)
	}
	const most = 256 << 10 // KiB resident, at most
	for _, c := range []struct {
		name string
		file []byte
	}{
		{"a table of a million packets", tableOf(1e6)},
		{"a table of two billion packets", tableOf(1<<31 - 1)},
		{"twenty thousand boxes in each other", deep(20000)},
		{"three thousand sounds", sounds(3000)},
		{"lengths without end", []byte("\x1a\x45\xdf\xa3\x01\xff\xff\xff\xff\xff\xff\xff\x18\x53\x80\x67\x01\xff\xff\xff\xff\xff\xff\xff" + strings.Repeat("\x15\x49\xa9\x66\x01\xff\xff\xff\xff\xff\xff\xff", 50000))},
	} {
		f, err := os.Open(save(t, "clip", c.file))
		if err != nil {
			t.Fatal(err)
		}
		var said bytes.Buffer
		cmd := exec.Command("earshot-decode")
		cmd.Stdin, cmd.Stderr = f, &said
		used := peakOf(t, cmd)
		f.Close()
		var r clip.Report
		lines := strings.Split(strings.TrimSpace(said.String()), "\n")
		if err := json.Unmarshal([]byte(lines[len(lines)-1]), &r); err != nil || r.Refusal == nil {
			t.Errorf("%s: %v: %s", c.name, err, said.String())
		}
		if used == 0 || used > most {
			t.Errorf("%s: %d MB resident, want at most %d", c.name, used>>10, most>>10)
		}
		t.Log(c.name, used>>10, "MB,", cmd.ProcessState.UserTime(), fmt.Sprint(r.Refusal))
	}
}
