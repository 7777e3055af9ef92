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
	stopFraction  = 0.1    // −10 dB: a movement begins no more than partReach before it first is this loud
	startFraction = 0.0006 // −32 dB: what is weaker is no start of a movement
	silent        = 1e-5   // −50 dB: what is weaker is not told from silence
)

// leastRise is from how many dB, over what was heard just before, a rise is a part: power
// of so few samples varies by as much.
const (
	leastRise = 3
	twofold   = 2 // the same, of power
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

// Movements are like sounds, each of some parts.
type Movements struct {
	Parts []Part // in the order of time, in the median of the sounds

	// Start and Stop are the times of two of the parts, and Lead is by how many samples
	// the one comes before the other, 0 where they are one; see Time.
	Start, Stop Times
	Lead        float64

	envelope *envelope
	sounds   *aligned // themselves; nil of none
}

// leads are the times from the start of each to its end stop, samples.
func (m *Movements) leads() []float64 {
	return floats.SubTo(make([]float64, len(m.Stop.At)), m.Stop.At, m.Start.At)
}

// Hides is how far below the loudest part a part at a time, in samples from the common
// instant, would not be heard, dB: before all parts that is the noise, and behind one its
// ring.
func (m *Movements) Hides(at float64) float64 {
	e := m.envelope
	if e == nil || e.power[e.loudest] == 0 {
		return 0
	}
	i := max(0, min(e.common+int(at)/e.bin, len(e.power)-2))
	hides := e.threshold
	if at > m.Parts[0].At {
		hides = math.Max(hides, twofold*slices.Max(e.power[max(0, i-3):i+2]))
	}
	return math.Min(0, num.Decibel(hides/e.power[e.loudest]))
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
// movement, which is no part of any, and the soonest other one so many, next, behind one of
// them; +Inf where nothing is known of that.
//
// Reference: VanDecar, J. C. and Crosson, R. S. (1990). Determination of
// teleseismic relative phase arrival times using multi-channel cross-correlation
// and least squares. Bulletin of the Seismological Society of America 80(1).
func LocateMovements(src dsp.Source, channel int, loudest []float64, after, next float64) (*Movements, error) {
	if len(loudest) == 0 {
		return &Movements{Parts: []Part{{}}}, nil
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
	a := align(rate, x, origin, at, math.Min(after, next))
	a.since = math.Max(-alignBefore*rate, math.Min(-partReach*rate, partLength*rate-after))
	return a.movements(), nil
}

func (a *aligned) movements() *Movements {
	e := a.envelope()
	m := &Movements{envelope: e, sounds: a}
	if e.power[e.loudest] > 0 {
		m.Parts = e.parts()
		a.alikeness(e, m.Parts)
	}
	if len(m.Parts) == 0 {
		m.Parts = []Part{{bin: e.common}}
	}
	return m
}

// Time times two of the parts, given by their indices, the start no later than the stop.
func (m *Movements) Time(start, stop int) {
	a := m.sounds
	if a == nil {
		return
	}
	from, to := m.Parts[start].At, m.Parts[stop].At
	if start == stop {
		only := a.place(from, from-pickBefore*a.rate, partLength*a.rate)
		m.Start, m.Stop, m.Lead = only, only, 0
		return
	}
	length := math.Min(partLength*a.rate, to-from-partShift*a.rate) // nothing of the stop
	m.Start = a.place(from, from-pickBefore*a.rate, length)
	m.Stop = a.place(to, math.Max(from+length/2, to-pickBefore*a.rate), partLength*a.rate)
	m.Lead = num.Median(m.leads())
}

// Loudest is the index of the loudest part.
func (m *Movements) Loudest() (loudest int) {
	for i, p := range m.Parts {
		if p.Level > m.Parts[loudest].Level {
			loudest = i
		}
	}
	return loudest
}
