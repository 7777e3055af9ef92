package dsp

import "math"

// HighpassHz is the corner of the conditioning filter. Mains hum, traffic and
// handling lie below it; the modes of small metal parts lie above.
const HighpassHz = 500

// section is one second-order filter in transposed direct form II.
type section struct {
	b0, b1, b2, a1, a2 float64
	s1, s2             float64
}

// highpass is a causal fourth-order Butterworth high-pass for one channel.
type highpass [2]section

// newHighpass designs the filter for a rate in Hz by the bilinear transform, as
// two sections with the Q of a fourth-order Butterworth, 1/(2·cos(π/8)) and
// 1/(2·cos(3π/8)).
func newHighpass(rate int) *highpass {
	return &highpass{highSection(HighpassHz, float64(rate), math.Pi/8), highSection(HighpassHz, float64(rate), 3*math.Pi/8)}
}

// highSection is a second-order high-pass with a corner in Hz, of the Q 1/(2·cos(angle)).
func highSection(corner, rate, angle float64) section {
	w := 2 * math.Pi * corner / rate
	alpha := math.Sin(w) * math.Cos(angle)
	a0 := 1 + alpha
	b := (1 + math.Cos(w)) / 2 / a0
	return section{b0: b, b1: -2 * b, b2: b, a1: -2 * math.Cos(w) / a0, a2: (1 - alpha) / a0}
}

// prime sets the filter as if x had been there for ever, so that an offset in the
// samples makes no sound of its own at the start.
func (f *highpass) prime(x float64) {
	f[0].s1, f[0].s2 = -f[0].b0*x, f[0].b0*x
}

// filter writes the filtered samples of one channel of interleaved src to dst and
// returns their energy. dst has one sample for every frame of src.
func (f *highpass) filter(dst, src []float64, channel, channels int) float64 {
	p, q := &f[0], &f[1]
	ps1, ps2, qs1, qs2 := p.s1, p.s2, q.s1, q.s2
	pb0, pb1, pb2, pa1, pa2 := p.b0, p.b1, p.b2, p.a1, p.a2
	qb0, qb1, qb2, qa1, qa2 := q.b0, q.b1, q.b2, q.a1, q.a2
	energy := 0.0
	for i, j := 0, channel; i < len(dst) && j < len(src); i, j = i+1, j+channels {
		// What does not wait for the output is added up first: the chain from one
		// output to the next is all that this loop takes.
		x := src[j]
		y := pb0*x + ps1
		ps1 = (pb1*x + ps2) - pa1*y
		ps2 = pb2*x - pa2*y
		z := qb0*y + qs1
		qs1 = (qb1*y + qs2) - qa1*z
		qs2 = qb2*y - qa2*z
		dst[i] = z
		energy += z * z
	}
	p.s1, p.s2, q.s1, q.s2 = ps1, ps2, qs1, qs2
	return energy
}

// settle clears what is left of a sound long gone, before it decays into numbers
// so small that the processor takes a hundred times longer over them.
func (f *highpass) settle() {
	for i := range f {
		f[i].settle()
	}
}

func (s *section) settle() {
	const gone = 1e-30
	if math.Abs(s.s1) < gone && math.Abs(s.s2) < gone {
		s.s1, s.s2 = 0, 0
	}
}
