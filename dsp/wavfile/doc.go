// Package wavfile reads the samples of WAV files and writes 16-bit PCM ones.
//
// A WAV file from a stranger may be cut short, streamed with a length of 0, or
// claim chunks of 4 GiB. Nothing is allocated from a size that a header claims,
// every chunk is held against the file's true length first, and what can be
// recovered is read with a warning; the rest is refused with the chunk, the
// byte, what was found and what is allowed.
//
// Read are PCM of 1 to 32 bits in containers of 1 to 4 bytes, IEEE float of 32
// and 64 bits, A-law and mu-law, by plain or extensible format, in RIFF, RF64 or
// BW64, with 1 to 64 channels at 8 to 384 kHz.
//
// Samples are float64 and full scale is ±1: an integer of n bytes is divided by
// 2^(8n−1), since bits fewer than the container holds lie at its upper end.
// Float samples pass unscaled and may exceed ±1. Those that are not finite, or
// that lie beyond ±2^32, which no recording means, are delivered as 0 and counted.
//
// Sources: Multimedia Programming Interface and Data Specifications 1.0 (IBM and
// Microsoft, 1991); WAVEFORMATEXTENSIBLE as Microsoft documents it; EBU Tech 3306
// and ITU-R BS.2088 for RF64 and BW64; ITU-T G.711 for A-law and mu-law.
package wavfile
