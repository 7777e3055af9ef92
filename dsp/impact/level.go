package impact

import (
	"math"
)

// over is the time over which a level is measured, s.
const over = 0.003

// amplitude is the factor that a level in dB stands for.
func amplitude(db float64) float64 { return math.Pow(10, db/20) }

// decibels is the level of a root mean square; that of silence is very low.
func decibels(rms float64) float64 { return 20 * math.Log10(max(rms, 1e-12)) }

// rms returns the root mean square of samples, 0 for none.
func rms(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v * v
	}
	return math.Sqrt(sum / float64(max(1, len(x))))
}

// peak returns the largest magnitude.
func peak(x []float64) float64 {
	p := 0.0
	for _, v := range x {
		p = max(p, math.Abs(v))
	}
	return p
}

// loudness returns the root mean square of the first 3 ms above 1 kHz, by a gentle filter
// that leaves something of a dull thump.
func loudness(x []float64, rate float64) float64 {
	n := min(len(x), int(over*rate))
	c := math.Exp(-2 * math.Pi * 1000 / rate)
	var low, sum float64
	for _, v := range x[:n] {
		low = c*low + (1-c)*v
		sum += (v - low) * (v - low)
	}
	return math.Sqrt(sum / float64(max(1, n)))
}

// above1kHz returns the level of x from sample at on over n samples, above 1 kHz, in dB.
func above1kHz(x []float64, rate float64, at, n int) float64 {
	lead := min(max(at, 0), int(0.004*rate))
	from, to := max(at, 0)-lead, min(len(x), at+n)
	if to <= from+lead {
		return decibels(0)
	}
	y := append([]float64(nil), x[from:to]...)
	highPass(1000, rate).run(y)
	return decibels(rms(y[lead:]))
}

// loudest returns the highest level over 3 ms, above 1 kHz, between two times in s.
func loudest(x []float64, rate, from, to float64) float64 {
	n := int(over * rate)
	best := decibels(0)
	for at := int(from * rate); at == int(from*rate) || at+n <= int(to*rate); at += n / 2 {
		best = max(best, above1kHz(x, rate, at, n))
	}
	return best
}
