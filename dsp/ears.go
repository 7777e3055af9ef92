package dsp

import (
	"math"

	"earshot/dsp/internal/num"
)

// NumEars is how many ears a clip is heard with at once.
const NumEars = 4

// earCorners are where the ears begin, Hz: the first is the conditioning, and each of the
// others is an octave up. What rumbles, speaks or rings in a room lies low; what noise
// hides lies high; no corner is best for all clips.
var earCorners = [NumEars]float64{HighpassHz, 1000, 2000, 4000}

// Levels is the level of a clip over time in each ear, all channels summed, in half
// decibels: value i of an ear covers the samples from i·Step to (i+1)·Step, about 1 ms.
type Levels struct {
	Step int
	Ears [NumEars][]uint8
}

// Level turns a value of an ear into dBFS.
func (l *Levels) Level(value uint8) float64 { return fromHalfDecibels(value) }

// earFilter takes the ears beyond the first from the conditioned signal of one channel: a
// second-order Butterworth high-pass for each, one behind the other.
type earFilter [NumEars - 1]section

func newEarFilter(rate int) *earFilter {
	const highest = 0.4 // of the rate: above, an ear hears nothing
	var f earFilter
	for i := range f {
		if corner := earCorners[i+1]; corner < highest*float64(rate) {
			f[i] = highSection(corner, float64(rate), math.Pi/4)
		}
	}
	return &f
}

// energies adds the energies of x in each of the ears to sums.
func (f *earFilter) energies(x []float64, sums *[NumEars]float64) {
	a, b, c := f[0], f[1], f[2]
	var ea, eb, ec float64
	for _, v := range x {
		y := a.b0*v + a.s1
		a.s1 = (a.b1*v + a.s2) - a.a1*y
		a.s2 = a.b2*v - a.a2*y
		z := b.b0*y + b.s1
		b.s1 = (b.b1*y + b.s2) - b.a1*z
		b.s2 = b.b2*y - b.a2*z
		w := c.b0*z + c.s1
		c.s1 = (c.b1*z + c.s2) - c.a1*w
		c.s2 = c.b2*z - c.a2*w
		ea += y * y
		eb += z * z
		ec += w * w
	}
	f[0], f[1], f[2] = a, b, c
	sums[1] += ea
	sums[2] += eb
	sums[3] += ec
}

// settle clears what is left of a sound long gone.
func (f *earFilter) settle() {
	for i := range f {
		f[i].settle()
	}
}

// leveller gathers the energies of hops into levels.
type leveller struct {
	levels Levels
	sums   [NumEars]float64
	hops   int
	hop    int
}

// hopsOfLevel is how many hops of half a millisecond make a level.
const hopsOfLevel = 2

func (l *leveller) endHop() {
	if l.hops++; l.hops < hopsOfLevel {
		return
	}
	for e, sum := range l.sums {
		l.levels.Ears[e] = append(l.levels.Ears[e], halfDecibels(num.Decibel(sum/float64(hopsOfLevel*l.hop))))
	}
	l.sums, l.hops = [NumEars]float64{}, 0
}
