package wavfile

import (
	"bytes"
	"encoding/binary"
	"io"
	"math"
)

// The files of these tests are put together byte by byte, so that what a reader
// must make of them follows from the standard and not from a writer of ours.

func le16(v int) []byte    { return binary.LittleEndian.AppendUint16(nil, uint16(v)) }
func le32(v int) []byte    { return binary.LittleEndian.AppendUint32(nil, uint32(v)) }
func le64(v uint64) []byte { return binary.LittleEndian.AppendUint64(nil, v) }

func f32(x float64) []byte { return le32(int(math.Float32bits(float32(x)))) }
func f64(x float64) []byte { return le64(math.Float64bits(x)) }

func join(parts ...[]byte) []byte { return bytes.Join(parts, nil) }

// ck is a well-formed chunk: name, size, body, and a pad byte after an odd body.
func ck(id string, body ...[]byte) []byte {
	b := join(body...)
	c := sized(id, len(b), b)
	if len(b)%2 == 1 {
		c = append(c, 0)
	}
	return c
}

// sized is a chunk that claims the given size whatever its body holds.
func sized(id string, size int, body ...[]byte) []byte {
	return join([]byte(id), le32(size), join(body...))
}

// riffWAV is a RIFF file of the chunks, form its first four bytes.
func riffWAV(chunks ...[]byte) []byte { return formWAV("RIFF", chunks...) }

func formWAV(form string, chunks ...[]byte) []byte {
	b := join(chunks...)
	size := len(b) + 4
	if form != "RIFF" {
		size = 0xFFFFFFFF
	}
	return join([]byte(form), le32(size), []byte("WAVE"), b)
}

// plain is a fmt chunk of 16 bytes.
func plain(tag, channels, rate, bits, width int) []byte {
	return ck("fmt ", plainBody(tag, channels, rate, bits, width))
}

func plainBody(tag, channels, rate, bits, width int) []byte {
	return join(
		le16(tag),                 // format tag
		le16(channels),            // channels
		le32(rate),                // frames a second
		le32(rate*channels*width), // bytes a second
		le16(channels*width),      // bytes a frame
		le16(bits),                // bits a sample
	)
}

// extensible is a fmt chunk of 40 bytes.
func extensible(sub, channels, rate, bits, valid int) []byte {
	return ck("fmt ",
		plainBody(0xFFFE, channels, rate, bits, bits/8),
		le16(22),    // bytes that follow
		le16(valid), // bits in use
		le32(0),     // channel mask: none told
		le16(sub),   // GUID: the sub-format's tag ...
		[]byte{0, 0, 0, 0, 0x10, 0, 0x80, 0, 0, 0xAA, 0, 0x38, 0x9B, 0x71}, // ... and its fixed tail
	)
}

// ds64 is the chunk that holds the 64-bit sizes.
func ds64(dataSize uint64) []byte {
	return ck("ds64", le64(0), le64(dataSize), le64(0), le32(0))
}

// mono16 is the format most tests use, pcm16 four samples in it, and want16 their values.
func mono16() []byte { return plain(1, 1, 48000, 16, 2) }

func pcm16() []byte { return []byte{0x00, 0x80, 0xFF, 0x7F, 0x01, 0x00, 0x00, 0xC0} }

func want16() []float64 { return []float64{-1, 32767.0 / 32768, 1.0 / 32768, -0.5} }

// stingy is a ReaderAt that hands out at most n bytes a call and, against the
// contract of io.ReaderAt, says nothing about it.
type stingy struct {
	b []byte
	n int
}

func (s stingy) ReadAt(p []byte, off int64) (int, error) {
	if off >= int64(len(s.b)) {
		return 0, io.EOF
	}
	return copy(p[:min(len(p), s.n)], s.b[off:]), nil
}

func open(b []byte) (*Reader, error) {
	return NewReader(bytes.NewReader(b), int64(len(b)), "clip.wav")
}

// readAll reads r through in pieces of n frames.
func readAll(r *Reader, n int) ([]float64, error) {
	var all []float64
	buf := make([]float64, n*r.Format().Channels)
	for {
		got, err := r.ReadFrames(buf)
		all = append(all, buf[:got*r.Format().Channels]...)
		if err == io.EOF {
			return all, nil
		}
		if err != nil {
			return all, err
		}
	}
}
