package dsp

import (
	"math"
	"testing"

	"earshot/dsp/outside"
)

// libraryFigures are what SciPy and NumPy make of the same samples; the script beside
// the file says how it is made.
type libraryFigures struct {
	Highpass []struct {
		Rate     int
		Offset   float64
		Filtered []float64
	}
	Picks []struct {
		Seed  uint32
		At    int
		Gain  float64
		Least int
	}
}

func readLibraryFigures(t *testing.T) libraryFigures {
	t.Helper()
	var f libraryFigures
	outside.ReadFigures(t, "testdata/kernels.json", &f)
	return f
}

// congruentialNoise is the noise that the script makes.
func congruentialNoise(n int, seed uint32) []float64 {
	x := make([]float64, n)
	for i := range x {
		seed = (seed*1103515245 + 12345) % (1 << 31)
		x[i] = float64(seed)/(1<<30) - 1
	}
	return x
}

func TestTheConditioningFilterAgreesWithSciPy(t *testing.T) {
	for _, c := range readLibraryFigures(t).Highpass {
		x := congruentialNoise(len(c.Filtered), 1)
		for i := range x {
			x[i] += c.Offset
		}
		f, y := newHighpass(c.Rate), make([]float64, len(x))
		f.prime(x[0])
		f.filter(y, x, 0, 1)
		outside.All(t, outside.SciPy(), "noise through the high-pass, 8 to 384 kHz (butter, sosfilt)", y, c.Filtered, 9)
	}
}

// Maeda has a variance about the mean, and one sample fewer behind the onset. Neither
// moves the least AIC of a sound that sets in at once by more than a sample.
func TestOnsetsArePickedWhereMaedasFormulaIsLeast(t *testing.T) {
	maeda := outside.Source{
		Name:    "AIC of Maeda (1985), in the form that the documentation of ObsPy's aic_simple gives",
		Figures: "written by dsp/testdata/kernels.py, with NumPy's variance",
	}
	near, all := 0, 0
	for _, c := range readLibraryFigures(t).Picks {
		x := congruentialNoise(240, c.Seed)
		for i := range x[c.At:] {
			x[c.At+i] *= c.Gain
		}
		got, _, ok := PickOnset(x)
		if all++; ok && math.Abs(got-float64(c.Least)) <= 1 {
			near++
		}
	}
	outside.Share(t, maeda, "onsets of noise that gets 20 or 40 dB louder, within one sample", near, all, 1)
}
