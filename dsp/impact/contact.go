package impact

import "math"

// hertz returns the force of two elastic bodies that touch for a time in s: half a sine to
// the power of 3/2, of area 1. Its first sample is above 0.
func hertz(contact, rate float64) []float64 {
	n := max(1, int(math.Round(contact*rate)))
	force := make([]float64, n)
	sum := 0.0
	for i := range force {
		force[i] = math.Pow(math.Sin(math.Pi*(float64(i)+0.5)/float64(n)), 1.5)
		sum += force[i]
	}
	for i := range force {
		force[i] /= sum
	}
	return force
}

// friction returns the force of what slides for a time in s: noise under an envelope that
// is told how much of the time has gone, from 0 to 1.
func (d dice) friction(lasts, rate float64, envelope func(float64) float64) []float64 {
	force := make([]float64, max(1, int(lasts*rate)))
	for i := range force {
		force[i] = d.NormFloat64() * envelope((float64(i)+0.5)/float64(len(force)))
	}
	return force
}

// Envelopes of what slides.
func rises(u float64) float64  { return u * math.Sqrt(u) }
func fades(u float64) float64  { return (1 - u) * (1 - u) }
func swells(u float64) float64 { return math.Sin(math.Pi * u) }
