package align

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"

	"earshot/dsp"
	"earshot/dsp/internal/num"
)

// Levels, against the loudest part of a movement.
const (
	stopFraction  = 0.1    // −10 dB: the first part this loud is the end stop
	startFraction = 0.0006 // −32 dB: what is weaker is no start of a movement
)

// firstWave is by how much, in s, all picks of a sound may be late together, as a
// standard uncertainty: its first wave is small, and most of it lies in the noise.
// It is what the errors of whole classes scatter by in docs/accuracy.md.
const firstWave = 0.00002

// Times, in s, of the envelope that the parts of a movement are told from.
const (
	partBin    = 0.00025 // its resolution
	softLead   = 0.0015  // from which a start is a part of its own, and not just how the stop's sound begins
	partReach  = 0.009   // how long before its loudest part a movement may begin
	partLength = 0.002   // what is compared of a part with those of other sounds: no stroke is shorter
	partMargin = 0.0005  // and of the time before it
	partShift  = 0.0005  // by which it may lie elsewhere than the whole movement
	pickBefore = 0.002   // a part is looked for this long before where it is in the mean
	pickAfter  = 0.0005  // and this long behind
)

// fewestAlike is how many sounds are worth comparing: of two it can't be told
// which is the one that strays.
const fewestAlike = 3

// Times are those of one part of every movement, in samples from the start of the clip.
type Times struct {
	At   []float64
	U    []float64 // standard uncertainty of each of them against the others, samples
	Bias float64   // standard uncertainty that all have in common, samples
}

// Movements are like sounds, each of a start and an end stop.
type Movements struct {
	Start, Stop Times

	// Lead is by how many samples the start comes before the end stop, 1.5 ms and more,
	// or 0 where they are one sound. Drop is how far the start lies below the loudest part,
	// and Depth how far below it a start would still have been heard, dB.
	Lead, Drop, Depth float64

	bin      int       // samples a value of
	envelope []float64 // the median power from the start on
	sounds   *aligned  // themselves; nil of none
}

// leads are the times from the start of each to its end stop, samples.
func (m *Movements) leads() []float64 {
	return floats.SubTo(make([]float64, len(m.Stop.At)), m.Stop.At, m.Start.At)
}

// RisesAgain tells whether power rises again as long after the start as in the
// other movement, to as much of what it was as an end stop may: where the other's
// stop is the louder by far, to more; else to a tenth, for a recorder that levels
// what it hears makes little of the second. A bounce is weaker.
func (m *Movements) RisesAgain(other *Movements) bool {
	const about, rise, far, tenth = 0.25, 4, 12, 0.1 // of the time; 6 dB; dB; −10 dB
	after := other.Lead
	if m.bin == 0 {
		return false
	}
	least := slices.Max(m.envelope[:min(len(m.envelope), 1+int(after/2)/m.bin)])
	if other.Drop < far {
		least *= tenth
	}
	of := after / float64(m.bin)
	from, to := max(3, int((1-about)*of)), min(int((1+about)*of)+1, len(m.envelope)-1)
	for i := from; i < to; i++ {
		if m.envelope[i]+m.envelope[i+1] > rise*(m.envelope[i-2]+m.envelope[i-3]) && m.envelope[i+1] > least {
			return true
		}
	}
	return false
}

// LocateMovements looks again at sounds that are taken for the same movement made
// again and again, given where the loudest part of each begins. All are aligned
// with each other, and the start and the end stop of the movement are found in
// the median of their envelopes, in which noise is weaker and what is not common
// to most has no part. Each is then placed by its own alignment, and the whole
// class by the median of the picks of all, so that intervals between sounds of
// one class are known far better than a single pick is.
//
// The soonest of them comes so many samples, after, behind the loudest part of another
// movement, which is no part of any; +Inf where nothing is known of that.
//
// Reference: VanDecar, J. C. and Crosson, R. S. (1990). Determination of
// teleseismic relative phase arrival times using multi-channel cross-correlation
// and least squares. Bulletin of the Seismological Society of America 80(1).
func LocateMovements(src dsp.Source, channel int, loudest []float64, after float64) (*Movements, error) {
	if len(loudest) == 0 {
		return &Movements{}, nil
	}
	rate := float64(src.Format().Rate)
	at := int(alignBefore * rate)
	n := at + int((alignAfter+tail)*rate)
	var x [][]float64
	var origin []float64
	for _, t := range loudest {
		from := int64(math.Round(t)) - int64(at)
		e, err := dsp.Excerpt(src, channel, from, n)
		if err != nil {
			return nil, err
		}
		x, origin = append(x, e), append(origin, float64(from))
	}
	a := align(rate, x, origin, at)
	a.since = math.Max(-alignBefore*rate, math.Min(-partReach*rate, partLength*rate-after))
	return a.movements(), nil
}

func (a *aligned) movements() *Movements {
	p := a.parts()
	for p.lead() > pickAfter*a.rate && !a.isPart(p) {
		p.passOver()
	}
	m := p.movement(a.rate)
	m.sounds = a
	start, stop := p.at(p.start), p.at(p.stop)
	if p.lead() > softLead*a.rate {
		length := math.Min(partLength*a.rate, stop-start-partShift*a.rate) // nothing of the stop
		m.Start = a.place(start, start-pickBefore*a.rate, length)
		m.Stop = a.place(stop, math.Max(start+length/2, stop-pickBefore*a.rate), partLength*a.rate)
		if m.Lead = num.Median(m.leads()); m.Lead > softLead*a.rate {
			return m
		}
	}
	only := a.place(start, start-pickBefore*a.rate, partLength*a.rate)
	m.Start, m.Stop, m.Lead = only, only, 0
	return m
}
