package wavfile

import (
	"encoding/binary"
	"math"
)

// converter turns src, which holds one sample for each place of dst, into
// samples and returns how many were no number and became 0. It is the inner loop
// of reading, so each coding has its own, kept free of calls and bounds checks.
type converter func(dst []float64, src []byte) (bad int)

func unsigned8(dst []float64, src []byte) int {
	src = src[:len(dst)]
	for i, b := range src {
		dst[i] = float64(int(b)-128) * (1.0 / (1 << 7))
	}
	return 0
}

// signed16 takes four samples at a time: it is what recorders write.
func signed16(dst []float64, src []byte) int {
	const scale = 1.0 / (1 << 15)
	for len(dst) >= 4 && len(src) >= 8 {
		u, d := binary.LittleEndian.Uint64(src), dst[:4]
		d[0] = float64(int16(u)) * scale
		d[1] = float64(int16(u>>16)) * scale
		d[2] = float64(int16(u>>32)) * scale
		d[3] = float64(int16(u>>48)) * scale
		dst, src = dst[4:], src[8:]
	}
	for i := range dst {
		dst[i] = float64(int16(binary.LittleEndian.Uint16(src[2*i:]))) * scale
	}
	return 0
}

func signed24(dst []float64, src []byte) int {
	const scale = 1.0 / (1 << 31) // the three bytes are moved to the top of four
	for i := range dst {
		if len(src) < 3 {
			break // never: it tells the compiler the length
		}
		u := uint32(src[0])<<8 | uint32(src[1])<<16 | uint32(src[2])<<24
		dst[i] = float64(int32(u)) * scale
		src = src[3:]
	}
	return 0
}

func signed32(dst []float64, src []byte) int {
	const scale = 1.0 / (1 << 31)
	for i := range dst {
		if len(src) < 4 {
			break // never: it tells the compiler the length
		}
		dst[i] = float64(int32(binary.LittleEndian.Uint32(src))) * scale
		src = src[4:]
	}
	return 0
}

// maxSample is the largest magnitude taken for a sample, 193 dB over full scale.
// It lets integers stored as float pass, and keeps the squares and sums made of
// samples far from overflow.
const maxSample = 1 << 32

// Floats are held against maxSample as integers without their sign, an order in
// which Inf and NaN stand above every number.

func float32s(dst []float64, src []byte) (bad int) {
	limit := math.Float32bits(maxSample)
	for i := range dst {
		if len(src) < 4 {
			break // never: it tells the compiler the length
		}
		u := binary.LittleEndian.Uint32(src)
		if u&^(1<<31) > limit {
			u = 0
			bad++
		}
		dst[i] = float64(math.Float32frombits(u))
		src = src[4:]
	}
	return bad
}

func float64s(dst []float64, src []byte) (bad int) {
	limit := math.Float64bits(maxSample)
	for i := range dst {
		if len(src) < 8 {
			break // never: it tells the compiler the length
		}
		u := binary.LittleEndian.Uint64(src)
		if u&^(1<<63) > limit {
			u = 0
			bad++
		}
		dst[i] = math.Float64frombits(u)
		src = src[8:]
	}
	return bad
}

// byTable is the converter for a code of one byte that expand turns into a
// 16-bit value.
func byTable(expand func(byte) int) converter {
	var table [256]float64
	for code := range table {
		table[code] = float64(expand(byte(code))) * (1.0 / (1 << 15))
	}
	return func(dst []float64, src []byte) int {
		src = src[:len(dst)]
		for i, code := range src {
			dst[i] = table[code]
		}
		return 0
	}
}
