package wavfile

import "math"

// variant is one kind of WAV file with what it holds.
type variant struct {
	name     string
	file     []byte
	encoding string
	channels int
	rate     int
	want     []float64 // interleaved
	warnings []WarningCode
	// foreign says why another reader may see the file otherwise; empty where
	// both must agree bit for bit.
	foreign string
}

// variants lists every kind that must be read. Expected values are the integers
// that the bytes spell, over the full scale of their container.
func variants() []variant {
	return append(append(codings(), containers()...), sizes()...)
}

func codings() []variant {
	frac := func(n, bits int) float64 { return float64(n) / math.Pow(2, float64(bits-1)) }
	pcm24 := []byte{0x00, 0x00, 0x80, 0xFF, 0xFF, 0x7F, 0x01, 0x00, 0x00, 0x56, 0x34, 0x12}
	want24 := []float64{-1, frac(0x7FFFFF, 24), frac(1, 24), frac(0x123456, 24)}
	pcm32 := []byte{0x00, 0x00, 0x00, 0x80, 0xFF, 0xFF, 0xFF, 0x7F, 0x01, 0x00, 0x00, 0x00, 0x78, 0x56, 0x34, 0x12}
	want32 := []float64{-1, frac(0x7FFFFFFF, 32), frac(1, 32), frac(0x12345678, 32)}
	pcm8, want8 := []byte{0x00, 0xFF, 0x80, 0x81}, []float64{-1, 127.0 / 128, 0, 1.0 / 128}
	floats32, wantFloat := join(f32(0.5), f32(-1), f32(1.5), f32(0)), []float64{0.5, -1, 1.5, 0}
	floats64 := join(f64(0.1), f64(-1), f64(1.5), f64(0))
	// The low bits of a sample are zero where fewer are valid than the container holds.
	pcm12, want12 := []byte{0x00, 0x80, 0xF0, 0x7F, 0x10, 0x00}, []float64{-1, frac(0x7FF, 12), frac(1, 12)}
	pcm20 := []byte{0x00, 0x00, 0x80, 0xF0, 0xFF, 0x7F, 0x10, 0x00, 0x00, 0x50, 0x34, 0x12}
	want20 := []float64{-1, frac(0x7FFFF, 20), frac(1, 20), frac(0x12345, 20)}
	pcm24in4 := []byte{0, 0, 0, 0x80, 0, 0xFF, 0xFF, 0x7F, 0, 1, 0, 0, 0, 0x56, 0x34, 0x12}
	// Decoder values of ITU-T G.711, Tables 1a and 2a (from memory; libsndfile
	// agrees), over 4096 for A-law and 8192 for mu-law.
	aCodes, wantA := []byte{0xAA, 0x2A, 0xD5, 0x55, 0xA5}, []float64{4032.0 / 4096, -4032.0 / 4096, 1.0 / 4096, -1.0 / 4096, 2112.0 / 4096}
	muCodes, wantMu := []byte{0x80, 0x00, 0xFF, 0xFE, 0x8F}, []float64{8031.0 / 8192, -8031.0 / 8192, 0, 2.0 / 8192, 4191.0 / 8192}
	noPad := "its 24-bit samples in 4 bytes are taken for another program's floats"
	v := func(name, encoding string, head, data []byte, want []float64) variant {
		return variant{name: name, file: riffWAV(head, ck("data", data)), encoding: encoding, channels: 1, rate: 48000, want: want}
	}
	list := []variant{
		v("8-bit PCM", "WAV, 8-bit PCM", plain(1, 1, 48000, 8, 1), pcm8, want8),
		v("16-bit PCM", "WAV, 16-bit PCM", mono16(), pcm16(), want16()),
		v("24-bit PCM", "WAV, 24-bit PCM", plain(1, 1, 48000, 24, 3), pcm24, want24),
		v("32-bit PCM", "WAV, 32-bit PCM", plain(1, 1, 48000, 32, 4), pcm32, want32),
		v("12-bit PCM in 2-byte containers", "WAV, 12-bit PCM in 2-byte containers", plain(1, 1, 48000, 12, 2), pcm12, want12),
		v("20-bit PCM in 3-byte containers", "WAV, 20-bit PCM in 3-byte containers", plain(1, 1, 48000, 20, 3), pcm20, want20),
		v("24-bit PCM in 4-byte containers", "WAV, 24-bit PCM in 4-byte containers", plain(1, 1, 48000, 24, 4), pcm24in4, want24),
		v("32-bit float", "WAV, 32-bit float", plain(3, 1, 48000, 32, 4), floats32, wantFloat),
		v("64-bit float", "WAV, 64-bit float", plain(3, 1, 48000, 64, 8), floats64, []float64{0.1, -1, 1.5, 0}),
		v("A-law", "WAV, A-law", plain(6, 1, 48000, 8, 1), aCodes, wantA),
		v("mu-law", "WAV, mu-law", plain(7, 1, 48000, 8, 1), muCodes, wantMu),
		v("8-bit PCM, extensible", "WAV, 8-bit PCM", extensible(1, 1, 48000, 8, 8), pcm8, want8),
		v("16-bit PCM, extensible", "WAV, 16-bit PCM", extensible(1, 1, 48000, 16, 16), pcm16(), want16()),
		v("24-bit PCM, extensible", "WAV, 24-bit PCM", extensible(1, 1, 48000, 24, 24), pcm24, want24),
		v("20 valid bits of 24, extensible", "WAV, 20-bit PCM in 3-byte containers", extensible(1, 1, 48000, 24, 20), pcm20, want20),
		v("24 valid bits of 32, extensible", "WAV, 24-bit PCM in 4-byte containers", extensible(1, 1, 48000, 32, 24), pcm24in4, want24),
		v("valid bits left at 0, extensible", "WAV, 16-bit PCM", extensible(1, 1, 48000, 16, 0), pcm16(), want16()),
		v("32-bit float, extensible", "WAV, 32-bit float", extensible(3, 1, 48000, 32, 32), floats32, wantFloat),
		v("64-bit float, extensible", "WAV, 64-bit float", extensible(3, 1, 48000, 64, 64), floats64, []float64{0.1, -1, 1.5, 0}),
		v("A-law, extensible", "WAV, A-law", extensible(6, 1, 48000, 8, 8), aCodes, wantA),
		v("mu-law, extensible", "WAV, mu-law", extensible(7, 1, 48000, 8, 8), muCodes, wantMu),
	}
	list[6].foreign = noPad
	return append(list, shapes()...)
}

// shapes are the numbers of channels and the rates at the ends of what is allowed.
func shapes() []variant {
	counting := func(n int) (data []byte, want []float64) {
		for i := range n {
			data = append(data, byte(i), 0x10)
			want = append(want, float64(0x1000+i)/32768)
		}
		return data, want
	}
	shape := func(name string, channels, rate int) variant {
		data, want := counting(3 * channels)
		return variant{
			name: name, file: riffWAV(plain(1, channels, rate, 16, 2), ck("data", data)),
			encoding: "WAV, 16-bit PCM", channels: channels, rate: rate, want: want,
		}
	}
	return []variant{
		shape("two channels at 44.1 kHz", 2, 44100), shape("six channels", 6, 48000),
		shape("64 channels", 64, 48000), shape("8 kHz", 1, 8000), shape("384 kHz", 1, 384000),
	}
}

// containers are the ways in which chunks lie around the samples.
func containers() []variant {
	data := ck("data", pcm16())
	odd := []byte("seven b")
	v := func(name string, chunks ...[]byte) variant {
		return variant{name: name, file: riffWAV(chunks...), encoding: "WAV, 16-bit PCM", channels: 1, rate: 48000, want: want16()}
	}
	warned := func(x variant, foreign string, codes ...WarningCode) variant {
		x.warnings, x.foreign = codes, foreign
		return x
	}
	return []variant{
		v("room kept before the format by JUNK", ck("JUNK", make([]byte, 28)), mono16(), data),
		v("bext of odd length, padded", ck("bext", odd), mono16(), data),
		warned(v("bext of odd length, pad byte missing", sized("bext", 7, odd), mono16(), data), "it insists on the pad byte"),
		v("odd LIST between format and samples", mono16(), ck("LIST", odd), data),
		warned(v("odd LIST between format and samples, pad byte missing", mono16(), sized("LIST", 7, odd), data), "it insists on the pad byte"),
		warned(v("pad byte after an even chunk", mono16(), sized("LIST", 4, []byte("INFO\x00")), data), "it knows no pad byte there"),
		v("format of 18 bytes and fact", ck("fmt ", plainBody(1, 1, 48000, 16, 2), le16(0)), ck("fact", le32(4)), data),
		v("LIST and id3 after the samples", mono16(), data, ck("LIST", odd), ck("id3 ", odd)),
		warned(v("format after the samples", data, mono16()), "it wants the format first"),
		warned(v("second chunk of samples", mono16(), data, ck("data", []byte{1, 2, 3, 4})), "it refuses the file", SecondData),
		warned(v("another file joined on", mono16(), data, ck("RIFF", []byte("WAVE"), mono16(), data)), "it refuses the file", SecondData),
		warned(v("an empty chunk of samples before the real one", mono16(), ck("data"), data), "it takes the empty one"),
		v("a few zeros behind the last chunk", mono16(), data, make([]byte, 500)),
		warned(v("seconds of bytes behind the last chunk", mono16(), data, make([]byte, 48000)), "", UnreadTail),
		v("odd number of bytes of samples", mono16(), ck("data", pcm16(), []byte{9})),
		{
			name: "8-bit samples of odd number with their pad byte", file: riffWAV(plain(1, 1, 48000, 8, 1), ck("data", []byte{0, 255, 128})),
			encoding: "WAV, 8-bit PCM", channels: 1, rate: 48000, want: []float64{-1, 127.0 / 128, 0},
		},
	}
}

// sizes are the ways in which the length of the samples is told, or is not.
func sizes() []variant {
	data := pcm16()
	streamed := func(name string, size int, foreign string) variant {
		return variant{
			name: name, file: riffWAV(mono16(), sized("data", size, data)), encoding: "WAV, 16-bit PCM",
			channels: 1, rate: 48000, want: want16(), warnings: []WarningCode{StreamedSize}, foreign: foreign,
		}
	}
	long := func(name, form string, codes []WarningCode, foreign string, chunks ...[]byte) variant {
		return variant{
			name: name, file: formWAV(form, chunks...), encoding: form + ", 16-bit PCM",
			channels: 1, rate: 48000, want: want16(), warnings: codes, foreign: foreign,
		}
	}
	open := sized("data", 0xFFFFFFFF, data)
	short := streamed("a file cut short", 20, "")
	short.warnings = []WarningCode{Truncated}
	cut := streamed("a file cut inside a sample", 20, "")
	cut.warnings, cut.file, cut.want = []WarningCode{Truncated}, cut.file[:len(cut.file)-1], want16()[:3]
	noList := "it reads a length of 0 as no samples"
	return []variant{
		streamed("length 0 of a recording that was not closed", 0, noList),
		streamed("length FFFFFFFF of a stream", 0xFFFFFFFF, ""),
		streamed("length FFFFFFFE of a stream", 0xFFFFFFFE, ""),
		streamed("length 7FFFF000 of a stream", 0x7FFFF000, ""),
		streamed("length 7FFFFFFF of a stream", 0x7FFFFFFF, ""),
		short, cut,
		long("RF64", "RF64", nil, "", ds64(8), mono16(), open),
		long("BW64", "BW64", nil, "it knows no BW64", ds64(8), mono16(), open),
		long("RF64 with a LIST after the samples", "RF64", nil, "", ds64(8), mono16(), open, ck("LIST", []byte("INFO"))),
		long("RF64 with a 32-bit length", "RF64", nil, "", ds64(8), mono16(), ck("data", data)),
		long("RF64 cut short", "RF64", []WarningCode{Truncated}, "", ds64(5<<30), mono16(), open),
		long("RF64 that was not closed", "RF64", []WarningCode{StreamedSize}, noList, ds64(0), mono16(), open),
		long("RF64 whose length says unknown", "RF64", []WarningCode{StreamedSize}, "it refuses that length", ds64(math.MaxUint64), mono16(), open),
		long("RF64 without the chunk of lengths", "RF64", []WarningCode{StreamedSize}, "it insists on that chunk", mono16(), open),
	}
}
