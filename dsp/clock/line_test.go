package clock

import (
	"testing"

	"earshot/dsp/outside"
)

// guideLine is the line of JCGM 100:2008, example H.3: corrections of a thermometer
// over its readings less 20 °C.
func guideLine() line {
	temperatures := []float64{21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511}
	corrections := []float64{-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160}
	var points []point
	for i, x := range temperatures {
		points = append(points, point{x - 20, corrections[i]})
	}
	return fit(points)
}

func TestTheLineIsThatOfTheGuideToUncertainty(t *testing.T) {
	guide := outside.Source{Name: "JCGM 100:2008 (GUM), example H.3", Figures: "as the guide prints them"}
	l := guideLine()
	at20, u20 := l.at(0, 0)
	at30, u30 := l.at(0, 10)
	outside.Printed(t, guide, "intercept, °C", at20, "-0.1712")
	outside.Printed(t, guide, "standard uncertainty of the intercept", u20, "0.0029")
	outside.Printed(t, guide, "slope", l.slope, "0.00218")
	outside.Printed(t, guide, "standard uncertainty of the slope", l.uSlope(), "0.00067")
	outside.Printed(t, guide, "scatter about the line, °C", l.s(), "0.0035")
	outside.Exact(t, guide, "degrees of freedom", []int{l.df()}, []int{9})
	outside.Printed(t, guide, "correction at 30 °C", at30, "-0.1494")
	outside.Printed(t, guide, "standard uncertainty of that correction", u30, "0.0041")
}

// The figures are written by the script beside them. Of an odd number of residuals
// the middle one is the median for everybody.
func TestTheLineAgreesWithSciPy(t *testing.T) {
	var want struct {
		Slope, Intercept, MAD float64
		USlope                float64 `json:"u_slope"`
		UIntercept            float64 `json:"u_intercept"`
	}
	outside.ReadFigures(t, "testdata/line.json", &want)
	l := guideLine()
	at0, u0 := l.at(0, 0)
	outside.Agree(t, outside.SciPy(), "slope of the line of GUM H.3 (linregress)", l.slope, want.Slope, 12)
	outside.Agree(t, outside.SciPy(), "standard uncertainty of that slope", l.uSlope(), want.USlope, 12)
	outside.Agree(t, outside.SciPy(), "intercept of that line", at0, want.Intercept, 12)
	outside.Agree(t, outside.SciPy(), "standard uncertainty of that intercept", u0, want.UIntercept, 12)
	outside.Agree(t, outside.SciPy(), "scatter about that line by the median deviation (median_abs_deviation)", robust(l), want.MAD, 12)
}
