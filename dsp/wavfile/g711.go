package wavfile

// Both laws of ITU-T G.711 code a sign, three bits of segment and four bits of
// step. They are expanded to the middle of the step, at the scale of 16 bits as
// is customary: A-law has 13 bits (times 8), mu-law 14 (times 4).

// aLaw expands a code of ITU-T G.711, Table 1. Even bits are inverted on the
// line, and a set sign bit means positive.
func aLaw(code byte) int {
	code ^= 0x55
	segment, step := int(code>>4&7), int(code&15)
	v := step<<4 + 8
	if segment > 0 {
		v = (v + 0x100) << (segment - 1)
	}
	if code&0x80 == 0 {
		return -v
	}
	return v
}

// muLaw expands a code of ITU-T G.711, Table 2. All bits are inverted on the
// line; 33 is the bias of the law's 14-bit scale.
func muLaw(code byte) int {
	const bias = 33 << 2
	code = ^code
	segment, step := int(code>>4&7), int(code&15)
	v := (step<<3+bias)<<segment - bias
	if code&0x80 != 0 {
		return -v
	}
	return v
}
