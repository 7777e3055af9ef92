package align

import "gonum.org/v1/gonum/floats"

// carried is which share of each sample the next one has of the sounds in the window
// before the onset, in the mean: their autocorrelation at a lag of one sample; 0 of
// silence. The noise of a room falls steeply towards high frequencies, so that this is
// most of what can be predicted of it; to predict from more samples times no better.
func (a *aligned) carried(w pickWindow) float64 {
	const fewest = 8 // samples
	to := int(w.otherwise - partMargin*a.rate)
	from := min(w.from, to-fewest)
	var product, power float64
	for i, x := range a.x {
		y := unit(cut(x, a.shift[i], from, to))
		product += floats.Dot(y[1:], y[:len(y)-1])
		power += floats.Dot(y, y)
	}
	if power == 0 {
		return 0
	}
	return product / power
}

// whitenedBefore are the sounds whitened by what is heard of them before an instant, so
// that swings of the noise that all have, as those of hum, don't make them alike.
func (a *aligned) whitenedBefore(at float64) *aligned {
	b := a.clone()
	b.x = make([][]float64, len(a.x))
	carried := a.carried(pickWindow{from: int(at - pickBefore*a.rate), otherwise: at})
	for i, x := range a.x {
		b.x[i] = append([]float64{0}, whitened(x, carried)...)
	}
	return b
}

// whitened is what x holds from its second sample on, but for what is carried over from
// each to the next. What is left of noise is nearly white, as a pick by AIC takes it to
// be: else slow swings of the noise are picked for an onset, and hide the fast first wave
// of a sound. Nothing moves to before where it began.
//
// Reference: Sleeman, R. and van Eck, T. (1999). Robust automatic P-phase picking: an
// on-line implementation in the analysis of broadband seismogram recordings. Physics of
// the Earth and Planetary Interiors 113 (from memory).
func whitened(x []float64, carried float64) []float64 {
	y := make([]float64, len(x)-1)
	for k := range y {
		y[k] = x[k+1] - carried*x[k]
	}
	return y
}
