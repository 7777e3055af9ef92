package collage

import "math"

// sound is a recording as it was loaded.
type sound struct {
	x    []float64
	rate float64
}

const (
	passes = 0.05   // of its peak: where a sound begins
	rises  = 0.0025 // s from there within which a clean click has its peak
)

// onset is the first index where x passes 5 % of its peak.
func onset(x []float64) int {
	limit := passes * peak(x)
	for i, v := range x {
		if math.Abs(v) > limit {
			return i
		}
	}
	return len(x)
}

func peak(x []float64) float64 {
	p := 0.0
	for _, v := range x {
		p = max(p, math.Abs(v))
	}
	return p
}

func rms(x []float64) float64 {
	e := 0.0
	for _, v := range x {
		e += v * v
	}
	return math.Sqrt(e / float64(max(1, len(x))))
}

// cut is s from its onset on, with a peak of 1, at most seconds long; the last half of it
// fades out. The onset is sought after any change of rate, so that what a filter spreads
// ahead of a click is cut off too.
func cut(x []float64, rate, seconds float64) []float64 {
	x = x[onset(x):]
	y := append([]float64(nil), x[:min(len(x), int(seconds*rate))]...)
	p := peak(y)
	if p == 0 {
		return y
	}
	half := len(y) / 2
	for i := range y {
		y[i] /= p
		if i >= half {
			y[i] *= 0.5 + 0.5*math.Cos(math.Pi*float64(i-half)/float64(len(y)-half))
		}
	}
	return y
}

// clean tells whether s is one click: it peaks soon after it begins, and nothing of it
// after 12 ms is within 12 dB of its loudest ms.
func clean(s sound) bool {
	x := s.x[onset(s.x):]
	ms := int(s.rate / 1000)
	if len(x) < 15*ms || peak(x[:int(rises*s.rate)]) < peak(x) {
		return false
	}
	loudest, later := 0.0, 0.0
	for i := 0; i+ms <= min(len(x), 40*ms); i += ms {
		level := rms(x[i : i+ms])
		loudest = max(loudest, level)
		if i >= 12*ms {
			later = max(later, level)
		}
	}
	return later < loudest/4
}
