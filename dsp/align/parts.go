package align

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"

	"earshot/dsp/internal/num"
)

// parts are the start and the end stop of a movement, in the median of the envelopes
// of the sounds: the power in bins, each sound's loudest set to 1.
type parts struct {
	envelope             []float64
	bin                  int     // samples
	common               int     // the bin at the common instant
	start, stop, loudest int     // bins
	floor                float64 // power before the movement
	threshold            float64 // power from which it shows
	rings                bool    // another movement, before it
}

// parts finds start and end stop. The start is the first part that is louder than
// all that was heard in the time before a movement can have begun: noise, and beats
// of an escapement, which come at another time before every closing. Where another
// movement still rings in that time it is the first rise out of this. The stop is where
// power rises most.
func (a *aligned) parts() *parts {
	bin := max(4, int(math.Round(partBin*a.rate)))
	before, reach := int(alignBefore*a.rate)/bin, int(partReach*a.rate)/bin
	since := max(0, before+int(a.since)/bin)
	envelope := a.medianEnvelope(bin, before, int(alignAfter*a.rate)/bin)
	p := &parts{envelope: envelope, bin: bin, common: before, start: before, stop: before, loudest: before - reach + floats.MaxIdx(envelope[before-reach:])}
	peak := envelope[p.loudest]
	if peak == 0 {
		return p
	}
	last := before - reach
	for envelope[last] < stopFraction*peak {
		last++
	}
	from := max(1, last-reach)
	p.floor = num.Median(envelope[:from])
	p.start, p.stop = last, p.steepest(last)
	if p.rings = from-since < reach; p.rings {
		p.firstRise(max(from, since), int(partLength*a.rate)/bin)
		return p
	}
	p.threshold = math.Max(slices.Max(envelope[since:from])*a.significant(bin), startFraction*peak)
	for i := last - 1; i > from; i-- {
		if envelope[i] > p.threshold && envelope[i-1] > p.threshold {
			p.start = i - 1
		}
	}
	return p
}

// firstRise takes for the start, from bin from on, the first of two bins in which power is
// four times all that it was for length before: what still rings only falls.
func (p *parts) firstRise(from, length int) {
	const rise = 4 // 6 dB
	last := p.start
	least := startFraction * p.envelope[p.loudest]
	for p.start = from; ; p.start++ {
		before := p.envelope[p.start-length : p.start]
		p.floor, p.threshold = num.Median(before), math.Max(rise*slices.Max(before), least)
		if p.start >= last || min(p.envelope[p.start], p.envelope[p.start+1]) > p.threshold {
			return
		}
	}
}

// steepest is the bin from last on in which power begins to rise most.
func (p *parts) steepest(last int) int {
	steepest, rise := last, 0.0
	for i := last; i <= p.loudest; i++ {
		if r := p.envelope[i] - p.envelope[i-1]; r > rise {
			steepest, rise = i, r
		}
	}
	for steepest > last && p.envelope[steepest-1] > p.envelope[steepest-2] && p.envelope[steepest-1] >= stopFraction*p.envelope[p.loudest] {
		steepest--
	}
	return steepest
}

// at is the time of bin i in samples from the common instant.
func (p *parts) at(i int) float64 { return float64((i - p.common) * p.bin) }

// lead is by how much the start comes before the stop, in samples.
func (p *parts) lead() float64 { return p.at(p.stop) - p.at(p.start) }

// passOver takes for the start the next bin before the stop in which power doubles,
// or the stop itself. What is passed over may hide a start.
func (p *parts) passOver() {
	next := p.start + 2
	for next < p.stop && p.envelope[next] < 2*math.Max(p.envelope[next-1], p.envelope[next-2]) {
		next++
	}
	next = min(next, p.stop)
	p.threshold = math.Max(p.threshold, slices.Max(p.envelope[p.start:max(next, p.start+1)]))
	p.start = next
}

// isPart tells whether what begins at the start is the same in all the sounds and so
// is a part of the movement: not what a codec spreads before a sound, which differs
// each time. The square of the correlation of a sound with the mean of the others is the
// share of what both have in common in the power of either; it must be nearer to what the
// power over noise lets expect than to what chance makes. Noise that is whitened lets
// expect less than there is.
func (a *aligned) isPart(p *parts) bool {
	if len(a.x) < fewestAlike {
		return true
	}
	at := p.at(p.start)
	length := math.Min(partLength*a.rate, p.at(p.stop)-at)
	power := num.Median(p.envelope[p.start : p.start+int(length)/p.bin])
	expected := 1.0 // out of digital silence
	if p.floor > 0 {
		signal := math.Max(0, power/p.floor-1)
		others := signal * float64(len(a.x)-1)
		expected = signal / (1 + signal) * others / (1 + others)
	}
	b := a.whitenedBefore(at)
	like, chance := b.alike(at, length), 0.0
	if !p.rings { // what rings is alike too
		chance = b.byChance(at, length)
	}
	return like >= chance+expected*(1-chance)/2
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

// movement tells what the parts show.
func (p *parts) movement(rate float64) *Movements {
	peak := p.envelope[p.loudest]
	if peak == 0 {
		return &Movements{}
	}
	attack := slices.Max(p.envelope[p.start : min(p.start+int(pickBefore*rate)/p.bin, p.loudest)+1])
	return &Movements{
		Drop:     num.Decibel(peak / attack),
		Depth:    num.Decibel(peak / p.threshold),
		bin:      p.bin,
		envelope: p.envelope[p.start:],
	}
}

// significant is the factor by which the median of a bin's power must exceed the
// loudest before the movement to be a part of it: a standard deviation, since that
// loudest one is far out already. A power over k independent samples has a
// relative standard deviation of √(2/k), and the median of n values 1.25 times
// that of their mean, √(1/n).
func (a *aligned) significant(bin int) float64 {
	return 1 + 1.25*math.Sqrt(2/float64(bin)/float64(len(a.x)))
}

// medianEnvelope is the median over the sounds of their power in bins, each
// sound's loudest bin set to 1.
func (a *aligned) medianEnvelope(bin, before, after int) []float64 {
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
	envelope := make([]float64, len(powers))
	for k, p := range powers {
		envelope[k] = num.Median(p)
	}
	return envelope
}
