package synth

import "math"

const (
	levelRate  = 48000.0 // Hz, at which sounds are measured when drawn
	clickSpan  = 0.002   // s, the loudest stretch of a click
	clickBelow = 500.0   // Hz, below which a click is not measured
	butterQ1   = 0.54119610
	butterQ2   = 1.30656296 // quality factors of a fourth-order Butterworth filter
)

// loudest is the RMS of the loudest 2 ms of the grains, over all frequencies.
func loudest(grains []grain) float64 {
	x, _ := renderAlone(grains, levelRate)
	return loudestSpan(x, levelRate)
}

// clickLevel is the RMS of the loudest 2 ms of the grains above 500 Hz, sampled at
// rate, Hz.
func clickLevel(grains []grain, rate float64) float64 {
	x, _ := renderAlone(grains, rate)
	highpass(x, rate)
	return loudestSpan(x, rate)
}

// toLevel scales grains so that their loudest 2 ms have the level in dB.
func toLevel(grains []grain, level float64) []grain {
	if len(grains) == 0 {
		return grains
	}
	factor := gain(level) / loudest(grains)
	for _, g := range grains {
		scaleParts(g.parts, factor)
	}
	return grains
}

// renderAlone renders grains by themselves; the second value is the frame that the
// first sample stands for.
func renderAlone(grains []grain, rate float64) ([]float64, int64) {
	start, end := span(grains)
	first := int64(math.Floor(start * rate))
	x := make([]float64, int64(math.Ceil(end*rate))-first+1)
	p := player{rate: rate}
	for i := range grains {
		p.add(x, first, &grains[i], 1)
	}
	return x, first
}

// span is from when to when grains sound, s.
func span(grains []grain) (start, end float64) {
	start, end = math.Inf(1), math.Inf(-1)
	for i := range grains {
		start = min(start, grains[i].at)
		end = max(end, grains[i].end())
	}
	return start, end
}

// loudestSpan is the greatest RMS over 2 ms of x, sampled at rate, Hz.
func loudestSpan(x []float64, rate float64) float64 {
	n := max(1, int(math.Round(clickSpan*rate)))
	sum, most := 0.0, 0.0
	for i, v := range x {
		sum += v * v
		if i >= n {
			sum -= x[i-n] * x[i-n]
		}
		most = max(most, sum)
	}
	return math.Sqrt(most / float64(n))
}

// highpass filters x in place above 500 Hz.
func highpass(x []float64, rate float64) {
	for _, q := range []float64{butterQ1, butterQ2} {
		b, a := highpassSection(q, rate)
		var x1, x2, y1, y2 float64
		for i, v := range x {
			y := b*(v-2*x1+x2) - a[0]*y1 - a[1]*y2
			x2, x1, y2, y1 = x1, v, y1, y
			x[i] = y
		}
	}
}

// highpassSection is b·(1 − z⁻¹)² / (1 + a0·z⁻¹ + a1·z⁻²), by the bilinear
// transform of a second-order high-pass.
func highpassSection(q, rate float64) (b float64, a [2]float64) {
	k := math.Tan(math.Pi * clickBelow / rate)
	norm := 1 / (1 + k/q + k*k)
	return norm, [2]float64{2 * (k*k - 1) * norm, (1 - k/q + k*k) * norm}
}

// highpassPower is the squared gain of highpass at a frequency: that of the analogue
// filter at the frequency the bilinear transform moves there.
func highpassPower(freq, rate float64) float64 {
	r := math.Tan(math.Pi*freq/rate) / math.Tan(math.Pi*clickBelow/rate)
	r8 := math.Pow(r, 8)
	return r8 / (1 + r8)
}
