package main

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"os"
	"os/exec"
	"testing"

	"earshot/dsp/clip"
)

// emptyFLAC is a file of FLAC of two channels of 16 bits that are zero throughout,
// after RFC 9639, with frames of 4096 samples; it states as many frames as it is told.
func emptyFLAC(rate, frames, states int) []byte {
	b := append([]byte("fLaC\x80\x00\x00\x22\x10\x00\x10\x00"), make([]byte, 6)...) // block sizes; frame sizes not known
	b = binary.BigEndian.AppendUint64(b, uint64(rate)<<44|1<<41|15<<36|uint64(states))
	b = append(b, make([]byte, 16)...) // MD5 not known
	for i := range frames {
		head := []byte{0xFF, 0xF8, 0xC0, 0x18} // fixed block size, 4096, rate as above, two channels of 16 bits
		head = append(head, []byte(string(rune(i)))...)
		head = append(head, crc8(head))
		frame := append(head, 0, 0, 0, 0, 0, 0) // constant 0, twice
		b = append(b, binary.BigEndian.AppendUint16(frame, crc16(frame))...)
	}
	return b
}

func crc8(b []byte) (sum byte) {
	for _, x := range b {
		sum ^= x
		for range 8 {
			carry := sum & 0x80
			if sum <<= 1; carry != 0 {
				sum ^= 0x07
			}
		}
	}
	return sum
}

func crc16(b []byte) (sum uint16) {
	for _, x := range b {
		sum ^= uint16(x) << 8
		for range 8 {
			carry := sum & 0x8000
			if sum <<= 1; carry != 0 {
				sum ^= 0x8005
			}
		}
	}
	return sum
}

// counter counts the bytes that come out.
type counter int64

func (c *counter) Write(p []byte) (int, error) { *c += counter(len(p)); return len(p), nil }

// decodeBytes has a process decode what a file holds, and returns how much came out,
// and its report.
func decodeBytes(t *testing.T, file []byte) (out counter, r clip.Report) {
	t.Helper()
	f, err := os.Open(save(t, "clip", file))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var said bytes.Buffer
	cmd := exec.Command("earshot-decode")
	cmd.Stdin, cmd.Stdout, cmd.Stderr = f, &out, &said
	cmd.Run()
	lines := bytes.Split(bytes.TrimSpace(said.Bytes()), []byte("\n"))
	if err := json.Unmarshal(lines[len(lines)-1], &r); err != nil {
		t.Fatalf("%v: %s", err, said.String())
	}
	return out, r
}

// A file of some KB that is some GB once it is decoded filled the disk and took half a
// minute before it was refused.
func TestASmallFileThatUnfoldsIsRefusedBeforeItDoes(t *testing.T) {
	withDecoder(t)
	const states = 4096 * 60000
	for _, c := range []struct {
		name string
		file []byte
		code clip.Code
		most counter // bytes that may come out
	}{
		{"it is a clip", emptyFLAC(48000, 100, 4096*100), "", 4096*100*8 + 1000},
		{"it holds an hour and a half of nothing", emptyFLAC(48000, 60000, states), clip.Damaged, 0},
		{"it states a day", emptyFLAC(48000, 100, 48000*86400/2), clip.TooLong, 0},
		{"it states nine minutes and holds a second", emptyFLAC(48000, 12, 4096*6000), clip.Damaged, 4096 * 12 * 9},
		{"it states a second and holds many", emptyFLAC(48000, 60000, 4096*12), clip.Damaged, 32 << 20},
		{"its sampling rate is too high", emptyFLAC(655350, 100, 4096*100), clip.FormatNotRead, 0},
		{"its sampling rate is too low", emptyFLAC(10, 100, 4096*100), clip.FormatNotRead, 0},
	} {
		out, report := decodeBytes(t, c.file)
		if e := report.Refusal; (e == nil) != (c.code == "") || e != nil && (e.Code != c.code || e.Hint == "") {
			t.Errorf("%s: %v, want the code %q", c.name, e, c.code)
		}
		if out > c.most {
			t.Errorf("%s: %d KB came out, want at most %d", c.name, out>>10, c.most>>10)
		}
		t.Logf("%s: %d KB, %v", c.name, out>>10, report.Refusal)
	}
}
