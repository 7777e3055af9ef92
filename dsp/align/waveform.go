package align

import (
	"math"

	"gonum.org/v1/gonum/floats"

	"earshot/dsp/internal/num"
)

// stretch is the part of the sounds that is compared, in samples from the common
// instant, and by how much they may be moved.
type stretch struct{ from, to, reach int }

// byWaveform moves each sound, to a fraction of a sample, to where its waveform within w
// is most like that of the most typical, and then like the mean of the others. Sounds
// that are not alike enough stay, in either. It returns the standard uncertainty of where
// each lies against the mean, +Inf where it is not alike enough to tell.
func (a *aligned) byWaveform(w stretch) (u []float64) {
	u = make([]float64, len(a.x))
	a.ontoMostTypical(w)
	for round := range 2 {
		cuts := make([][]float64, len(a.x))
		like := make([]bool, len(a.x))
		var alike [][]float64
		for i := range a.x {
			cuts[i] = unit(cut(a.x[i], a.shift[i], w.from, w.to))
			if like[i] = round == 0 || a.likeness[i] >= trustedLikeness; like[i] {
				alike = append(alike, cuts[i])
			}
		}
		if len(alike) < 2 {
			return infinite(u)
		}
		sum := sumOf(alike)
		for i := range a.x {
			u[i] = math.Inf(1)
			template := sum
			if like[i] {
				template = floats.SubTo(make([]float64, len(sum)), sum, cuts[i])
			}
			wide := cut(a.x[i], a.shift[i], w.from-w.reach, w.to+w.reach)
			lag, rho := fineLag(wide, template, w.reach)
			a.likeness[i] = rho
			if rho >= trustedLikeness {
				a.shift[i] += lag
				u[i] = lagUncertainty(template, rho)
			}
		}
	}
	return u
}

// infinite sets all of x to +Inf.
func infinite(x []float64) []float64 {
	for i := range x {
		x[i] = math.Inf(1)
	}
	return x
}

// unit scales x to a norm of 1, in place; nothing stays nothing.
func unit(x []float64) []float64 {
	if norm := math.Sqrt(floats.Dot(x, x)); norm > 0 {
		floats.Scale(1/norm, x)
	}
	return x
}

// sumOf is the sum of the rows, of which there is one at least.
func sumOf(rows [][]float64) []float64 {
	sum := make([]float64, len(rows[0]))
	for _, row := range rows {
		floats.Add(sum, row)
	}
	return sum
}

// lagUncertainty is the standard uncertainty of a lag in samples by the Cramér–Rao
// bound: 1/√(β²·S·N), with S = ρ²/(1−ρ²) for how far what is common stands over
// what differs, β the RMS bandwidth of the template in radians a sample, and N the
// number of independent samples in it, which for a band from 0 up is √3·β/π of all.
func lagUncertainty(template []float64, rho float64) float64 {
	var slope, power float64
	for k := 1; k+1 < len(template); k++ {
		d := (template[k+1] - template[k-1]) / 2
		slope += d * d
		power += template[k] * template[k]
	}
	if slope == 0 {
		return math.Inf(1)
	}
	beta := math.Sqrt(slope / power)
	rho = math.Min(rho, 0.9999)
	s := rho * rho / (1 - rho*rho)
	n := float64(len(template)) * math.Sqrt(3) * beta / math.Pi
	return 1 / (beta * math.Sqrt(s*n))
}

// fineLag is the lag by which x, longer than y by reach on either side, must be moved
// back to be most like y, and the normalised correlation there; 0 and −1 of silence. The
// lag is the vertex of the parabola through the largest correlation and its neighbours.
func fineLag(x, y []float64, reach int) (lag, rho float64) {
	n := len(y)
	correlations := make([]float64, len(x)-n+1)
	xx, yy, faint := floats.Dot(x[:n], x[:n]), floats.Dot(y, y), 1e-9*floats.Dot(x, x)
	best, rho := reach, -1.0 // of silence none is better
	for k := range correlations {
		c := -1.0
		if xx > faint && yy > 0 { // what is fainter is silence but for rounding
			c = floats.Dot(x[k:k+n], y) / math.Sqrt(xx) / math.Sqrt(yy) // xx·yy may be too small for a float
		}
		if correlations[k] = c; c > rho {
			best, rho = k, c
		}
		if k+n < len(x) {
			xx += num.Square(x[k+n]) - num.Square(x[k])
		}
	}
	lag = float64(best - reach)
	if best > 0 && best+1 < len(correlations) {
		l, r := correlations[best-1], correlations[best+1]
		if curve := l - 2*rho + r; curve < 0 {
			lag += (l - r) / (2 * curve)
		}
	}
	return lag, rho
}

// cut is x from index at+from to at+to, moved by the fraction of at by linear
// interpolation and filled up with zeros.
func cut(x []float64, at float64, from, to int) []float64 {
	whole := math.Floor(at)
	part := at - whole
	y := make([]float64, to-from)
	for k := range y {
		if i := int(whole) + from + k; i >= 0 && i+1 < len(x) {
			y[k] = (1-part)*x[i] + part*x[i+1]
		}
	}
	return y
}
