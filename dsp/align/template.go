package align

import (
	"math"

	"gonum.org/v1/gonum/floats"

	"earshot/dsp/internal/num"
)

// Template is what movements of one kind sound like, from overlaidMargin before their
// start on.
type Template struct {
	waveform []float64 // their mean
	powers   cells     // the mean of their powers over the noise before each

	stroke              float64 // from start to end stop, samples, 0 where they are one sound
	scatter             float64 // its standard deviation
	startBias, stopBias float64 // of the movements
	part                int     // of the waveform, samples: the start without any of the end stop, 0 where they are one sound
}

// Template is the mean of the movements that are alike, laid with their starts over each
// other; of nothing where they are too few. Where what comes so many samples after their
// start is no more of them, it is known up to there; Inf for all that was heard.
func (m *Movements) Template(until float64) Template {
	t := Template{stroke: m.Lead, scatter: m.scatter(), startBias: m.Start.Bias, stopBias: m.Stop.Bias}
	a := m.sounds
	if a == nil {
		return t
	}
	margin := int(overlaidMargin * a.rate)
	end := until
	var like []int
	for i := range a.x {
		if a.likeness[i] >= trustedLikeness {
			like = append(like, i)
			end = math.Min(end, float64(len(a.x[i]))-(m.Start.At[i]-a.origin[i]))
		}
	}
	if len(like) < fewestTelling || end < 2*float64(margin) {
		return t
	}
	var cuts [][]float64
	for _, i := range like {
		cuts = append(cuts, cut(a.x[i], m.Start.At[i]-a.origin[i], -margin, int(end)))
	}
	t.waveform = sumOf(cuts)
	floats.Scale(1/float64(len(like)), t.waveform)
	if m.Lead > 0 {
		t.part = min(len(t.waveform), margin+int(math.Min(partLength*a.rate, m.Lead-partShift*a.rate)))
	}
	t.powers = a.powers(like, m.Start.At, margin, int(end))
	return t
}

// scatter is the standard deviation of the time from start to end stop, in samples, 0
// where they are one sound.
func (m *Movements) scatter() float64 {
	leads := m.leads()
	return num.Spread(leads, num.Median(leads))
}

// fewestTelling is how many sounds that are alike tell what others of their kind are like:
// what two have in common is no longer what was by chance in one.
const fewestTelling = 2

// powers is the mean power of like sounds in cells, over the noise before each, from
// margin samples before their starts to end samples behind them.
func (a *aligned) powers(like []int, starts []float64, margin, end int) cells {
	const from, to = 0.025, 0.010 // s before the start: noise
	var mean cells
	for _, i := range like {
		at := starts[i] - a.origin[i]
		c := sliced(cut(a.x[i], at, -margin, end), a.rate)
		noise := sliced(cut(a.x[i], at, -int(from*a.rate), -int(to*a.rate)), a.rate).steadily()
		if mean == nil {
			mean = make(cells, len(c))
		}
		for k := range c {
			for b, p := range c[k] {
				mean[k][b] += math.Max(0, p-noise[b]) / float64(len(like))
			}
		}
	}
	return mean
}
