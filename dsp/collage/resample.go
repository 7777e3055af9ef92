package collage

import "math"

const (
	taps   = 24  // of the interpolating filter, each side of it half of them
	phases = 256 // of a sample's fraction
)

// resample changes the rate of x by a windowed sinc that passes what both rates can hold.
// The result has len(x)*to/from samples.
func resample(x []float64, from, to float64) []float64 {
	if from == to {
		return append([]float64(nil), x...)
	}
	kernel := sincs(min(1, to/from) * 0.94)
	y := make([]float64, int(float64(len(x))*to/from))
	for i := range y {
		at := float64(i) * from / to
		whole := int(at)
		row := kernel[int((at-float64(whole))*phases)]
		first := whole - len(row)/2 + 1
		lo, hi := max(0, -first), min(len(row), len(x)-first)
		for k := lo; k < hi; k++ {
			y[i] += row[k] * x[first+k]
		}
	}
	return y
}

// sincs is the filter for each fraction of a sample; pass is its band over the source's.
func sincs(pass float64) [][]float64 {
	n := 2 * int(float64(taps/2)/pass)
	rows := make([][]float64, phases)
	for p := range rows {
		row := make([]float64, n)
		for k := range row {
			t := float64(k-n/2+1) - float64(p)/phases
			row[k] = pass * sinc(pass*t) * (0.5 + 0.5*math.Cos(2*math.Pi*t/float64(n+1)))
		}
		rows[p] = row
	}
	return rows
}

func sinc(t float64) float64 {
	if math.Abs(t) < 1e-9 {
		return 1
	}
	return math.Sin(math.Pi*t) / (math.Pi * t)
}

// stretch plays x slower by the factor, near 1, which lowers its pitch as well. Its first
// sample stays the first.
func stretch(x []float64, factor float64) []float64 {
	y := make([]float64, int(float64(len(x)-1)*factor))
	for i := range y {
		at := float64(i) / factor
		k := int(at)
		f := at - float64(k)
		y[i] = x[k]*(1-f) + x[min(k+1, len(x)-1)]*f
	}
	return y
}
