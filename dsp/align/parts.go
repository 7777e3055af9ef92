package align

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"

	"earshot/dsp/internal/num"
)

// Part is one sudden rise in a movement: the start, the end stop, a bounce, or none of
// these.
type Part struct {
	At    float64 // samples from the common instant
	Level float64 // dB, of its loudest millisecond against the loudest part
	Odds  float64 // natural logarithm of the odds that it is a sound, and not what a codec spreads or a ring that swells
	bin   int
}

// envelope is the median of the envelopes of the sounds: the power in bins, each sound's
// loudest set to 1.
type envelope struct {
	power     []float64
	upper     []float64 // what a quarter of the sounds are over
	bin       int       // samples
	evenly    float64   // by which of the noise that is over the median
	common    int       // the bin at the common instant
	loudest   int       // bin
	from      int       // the first bin in which a movement may begin
	floor     float64   // power before the movement
	threshold float64   // power from which it shows
	rings     bool      // another movement, before it
}

// envelope is that of the sounds, with what was heard before the movement: noise, and
// beats of an escapement, which come at another time before every closing.
func (a *aligned) envelope() *envelope {
	bin := max(4, int(math.Round(partBin*a.rate)))
	before, reach := int(alignBefore*a.rate)/bin, int(partReach*a.rate)/bin
	since := max(0, before+int(a.since)/bin)
	power, upper := a.medianEnvelope(bin, before, int(alignAfter*a.rate)/bin)
	e := &envelope{power: power, upper: upper, bin: bin, common: before, loudest: before - reach + floats.MaxIdx(power[before-reach:])}
	peak := power[e.loudest]
	if peak == 0 {
		return e
	}
	last := before - reach
	for power[last] < stopFraction*peak {
		last++
	}
	e.from = max(1, last-reach)
	e.floor, e.evenly = num.Median(power[:e.from]), 1
	if quarter := num.Median(upper[:e.from]); quarter > 0 {
		e.evenly = e.floor / quarter
	}
	e.threshold = math.Max(slices.Max(power[min(since, e.from-1):e.from])*a.significant(bin), startFraction*peak)
	if e.rings = e.from-since < reach; e.rings {
		e.from = max(e.from, since)
		e.threshold = startFraction * peak
	}
	return e
}

// rise is by how many dB power in bin i, and in the next, is over all that it was
// in so many bins before.
func (e *envelope) rise(i, before int) float64 {
	past := slices.Max(e.power[max(0, i-before):i])
	return num.Decibel(min(e.power[i], e.power[i+1]) / math.Max(past, e.power[e.loudest]*1e-9))
}

// parts are the rises in the envelope, in the order of time. How steep one is that comes
// before the loudest is told by what three quarters of the sounds were under before: starts
// come at about one time, and what a codec spreads begins with its frames, at any.
func (e *envelope) parts() (all []Part) {
	const ago = 3 // bins
	for i := max(e.from, ago); i+3 < len(e.power); i++ {
		before := ago
		if e.rings && i <= e.loudest {
			before = min(i, int(partLength/partBin)) // what still rings only falls
		}
		if min(e.power[i], e.power[i+1]) <= e.threshold || e.rise(i, before) < leastRise {
			continue
		}
		level := slices.Max(e.power[i : i+4])
		past := slices.Max(e.power[i-before : i])
		if i > 2*before && i < e.loudest {
			past = math.Max(past, e.evenly*slices.Max(e.upper[i-2*before:i-before+1]))
		}
		rise := num.Decibel(level / math.Max(past, silent*e.power[e.loudest]))
		all = append(all, Part{At: e.at(i), Level: num.Decibel(level / e.power[e.loudest]), Odds: steepness(rise), bin: i})
		i += 2
	}
	return all
}

// steepness is by how much a rise, dB, tells that a sound begins: what a codec spreads grows
// by 5 dB in a millisecond or less, and a ring of few modes swells by as much, while a start
// that is heard at all mostly rises by 10 and more.
func steepness(rise float64) float64 {
	const even, certain = 6, 30 // dB
	if rise < even {
		return rise - even
	}
	return (math.Min(rise, certain) - even) / 2
}

// alikeness adds to the odds of parts that come before the loudest how alike they are in all
// the sounds: a part of the movement is the same each time, and what a codec spreads before
// a sound differs. The square of the correlation of a sound with the mean of the others is
// the share of what both have in common in the power of either; for a part it is near to what the
// power over noise lets expect, and else to what chance makes.
func (a *aligned) alikeness(e *envelope, parts []Part) {
	const most = 3 // a likelihood ratio of 20: sounds that rattle are less alike than they should be
	if len(a.x) < fewestAlike {
		return
	}
	for i := range parts {
		p := &parts[i]
		if p.bin >= e.loudest || p.Odds >= most {
			continue
		}
		length := math.Min(partLength*a.rate, e.at(e.loudest)-p.At)
		if length < partShift*a.rate {
			continue
		}
		expected := e.expected(p.bin, length, len(a.x))
		b, chance := a.whitenedBefore(p.At), 0.0
		like := b.alike(p.At, length)
		if !e.rings { // what rings is alike too
			chance = b.byChance(p.At, length)
		}
		half := math.Max(expected*(1-chance)/2, 0.05)
		p.Odds += most * math.Max(-1, math.Min((like-chance-half)/half, 1))
	}
}

// expected is how alike n sounds are in what begins in a bin and lasts for length, given how
// far it is over the noise.
func (e *envelope) expected(bin int, length float64, n int) float64 {
	if e.floor == 0 {
		return 1 // out of digital silence
	}
	power := num.Median(e.power[bin : bin+max(1, int(length)/e.bin)])
	signal := math.Max(0, power/e.floor-1)
	others := signal * float64(n-1)
	return signal / (1 + signal) * others / (1 + others)
}

// byChance is how alike the sounds are, at most, in what lasts for length at some time
// before an instant: what is moved to be alike is so a little.
func (a *aligned) byChance(at, length float64) (most float64) {
	apart := length + (partMargin+2*partShift)*a.rate
	for before := apart; before < partReach*a.rate; before += apart {
		most = math.Max(most, a.alike(at-before, length))
	}
	return most
}

// alike is the median likeness of what lasts for length from an instant on, laid over
// the others', as the square of a correlation, with its sign.
func (a *aligned) alike(at, length float64) float64 {
	b := a.clone()
	b.byWaveform(a.compared(at, length))
	like := num.Median(b.likeness)
	return like * math.Abs(like)
}

// at is the time of bin i in samples from the common instant.
func (e *envelope) at(i int) float64 { return float64((i - e.common) * e.bin) }

// significant is the factor by which the median of a bin's power must exceed the
// loudest before the movement to be a part of it: a standard deviation, since that
// loudest one is far out already. A power over k independent samples has a
// relative standard deviation of √(2/k), and the median of n values 1.25 times
// that of their mean, √(1/n).
func (a *aligned) significant(bin int) float64 {
	return 1 + 1.25*math.Sqrt(2/float64(bin)/float64(len(a.x)))
}

// medianEnvelope is the median over the sounds of their power in bins, each
// sound's loudest bin set to 1, and the upper quartile.
func (a *aligned) medianEnvelope(bin, before, after int) (median, upper []float64) {
	powers := make([][]float64, before+after)
	for i, x := range a.x {
		y := cut(x, a.shift[i], -before*bin, after*bin)
		loudest := 0.0
		for k := range powers {
			loudest = math.Max(loudest, num.MeanSquare(y[k*bin:(k+1)*bin]))
		}
		if loudest == 0 {
			continue
		}
		for k := range powers {
			powers[k] = append(powers[k], num.MeanSquare(y[k*bin:(k+1)*bin])/loudest)
		}
	}
	median, upper = make([]float64, len(powers)), make([]float64, len(powers))
	for k, p := range powers {
		median[k] = num.Median(p)
		if slices.Sort(p); len(p) > 0 {
			upper[k] = p[(3*(len(p)-1)+2)/4]
		}
	}
	return median, upper
}
