package align

import (
	"math"

	"earshot/dsp"
	"earshot/dsp/internal/num"
)

// place times one part of the movement in every sound. It begins about where at
// says and lasts for length; nothing before from is looked at, and all are in samples
// from the common instant. Each sound is moved until that part of it is like the others', and
// the onset is then picked once for all that are alike. A sound that is not like
// the others keeps its own pick, unless another part was picked.
func (a *aligned) place(at, from, length float64) (p Times) {
	b, compared := a.clone(), a.compared(at, length)
	moved := b.byWaveform(compared)
	w := pickWindow{from: int(from), to: int(at + pickAfter*b.rate), otherwise: at}
	w.carried = b.carried(w)
	offset, offsetU := b.commonPick(moved, w)
	for i := range b.x {
		t, ui := offset, moved[i]
		if len(b.x) < fewestAlike || math.IsInf(ui, 1) {
			t, ui = w.pick(w.cut(b.x[i], b.shift[i]))
			if len(b.x) >= fewestAlike && math.Abs(t-offset) > pickAfter*b.rate {
				t, ui = offset, pickAfter*b.rate
			}
		}
		p.At, p.U = append(p.At, b.origin[i]+b.shift[i]+t), append(p.U, ui)
	}
	p.Bias = math.Hypot(offsetU, firstWave*b.rate)
	return p
}

// compared is what is compared of a part that begins at an instant and lasts for length.
func (a *aligned) compared(at, length float64) stretch {
	return stretch{int(at - partMargin*a.rate), int(at + length), int(partShift * a.rate)}
}

// pickWindow is where an onset is picked, and where it is taken to be if that fails,
// in samples from the common instant.
type pickWindow struct {
	from, to  int
	otherwise float64
	carried   float64 // from each sample of the noise to the next
}

// cut is what a sound x with the common instant at index at has in the window, and the
// sample before.
func (w pickWindow) cut(x []float64, at float64) []float64 { return cut(x, at, w.from-1, w.to) }

// pick is the onset in x, a cut of the window, in samples from the common instant, with
// its standard uncertainty. It is picked twice, as it is and whitened, for what codecs
// spread before a sound is whiter than noise, and the mean taken by inverse variances. It is
// as uncertain as either, since both hear the same noise, and as they lie apart.
func (w pickWindow) pick(x []float64) (onset, u float64) {
	plain, plainU := w.pickOnce(x[1:])
	white, whiteU := w.pickOnce(whitened(x, w.carried))
	share := num.Square(plainU) / (num.Square(plainU) + num.Square(whiteU)) // of the white one
	onset = plain + share*(white-plain)
	return onset, math.Sqrt((1-share)*(num.Square(plainU)+num.Square(plain-onset)) + share*(num.Square(whiteU)+num.Square(white-onset)))
}

// pickOnce is the onset in x, which is what the window shows.
func (w pickWindow) pickOnce(x []float64) (onset, u float64) {
	pick, u, ok := dsp.PickOnset(x)
	if !ok {
		return w.otherwise, float64(w.to-w.from) / math.Sqrt(12)
	}
	return float64(w.from) + pick, math.Hypot(math.Max(u, 0.3), unheard(x, pick))
}

// heardFrom is how many times the amplitude of the noise a sound has when it is
// picked that grows in a straight line: 2 to 3 times, from 10 to 40 dB of its end over
// the noise.
const heardFrom = 3

// unheard is by how much a pick may be late because the first of the sound lies in
// the noise, as a standard uncertainty in samples. The sound grows from nothing, and
// is not heard at first: taken as a straight line whose mean square is that of what
// follows the pick, so long.
func unheard(x []float64, pick float64) float64 {
	k := int(pick)
	noise, power := num.MeanSquare(x[:k]), num.MeanSquare(x[k:])
	return heardFrom * float64(len(x)-k) * math.Sqrt(noise/power/3) / math.Sqrt(3)
}

// commonPick picks the onset in the mean of the sounds that were moved onto each
// other, in which noise is weaker by the root of their number. Where they are few
// it is the median of the picks in each. That median is another estimate of the same,
// in which noise tells more, and what only some sounds have before them, as a codec
// spreads it, tells less: by how much both differ is part of the uncertainty.
func (a *aligned) commonPick(moved []float64, w pickWindow) (onset, u float64) {
	var cuts [][]float64
	var picks, us []float64
	for i, x := range a.x {
		y := w.cut(x, a.shift[i])
		pick, pickU := w.pick(y)
		picks, us = append(picks, pick), append(us, pickU)
		if !math.IsInf(moved[i], 1) {
			cuts = append(cuts, y)
		}
	}
	middle := num.Median(picks)
	if len(cuts) < fewestAlike {
		return middle, math.Hypot(num.Median(us), num.Spread(picks, middle)*1.25/math.Sqrt(float64(len(picks))))
	}
	onset, u = w.pick(sumOf(cuts))
	return onset, math.Hypot(u, onset-middle)
}
