package num

import "math"

// Silence is the mean square below which sound is taken for digital silence: a third of
// the quantisation noise of 16-bit samples. It keeps logarithms finite.
const Silence = 1e-11

// Decibel is a ratio of powers in dB; −Inf of 0.
func Decibel(ratio float64) float64 { return 10 * math.Log10(ratio) }

// Level is the level of a mean square in dBFS, never below that of digital silence.
func Level(meanSquare float64) float64 { return Decibel(math.Max(meanSquare, Silence)) }
