package judge

import (
	"fmt"
	"testing"

	"earshot/dsp/outside"
	"earshot/shutter"
)

// libraryFigures are what two libraries make of the same numbers; the script beside
// the file says how it is made.
type libraryFigures struct {
	Welch []struct {
		A, B           []float64
		T, P, DF, Half float64
	}
	Holm  []struct{ P, Corrected []float64 }
	Trend []struct {
		X []float64
		P float64
	}
	Student []struct {
		DF int
		T  float64
	}
	Range []struct {
		P float64
		N int
		Q float64
	}
	MAD []struct {
		X  []float64
		SD float64
	}
}

func readLibraryFigures(t *testing.T) libraryFigures {
	t.Helper()
	var f libraryFigures
	outside.ReadFigures(t, "testdata/statistics.json", &f)
	return f
}

func statsmodels() outside.Source {
	return outside.Source{Name: "statsmodels 0.13.5", Figures: "written by shutter/judge/testdata/statistics.py, with Debian's python3-statsmodels"}
}

func TestWelchsTestAgreesWithStatsmodels(t *testing.T) {
	for _, c := range readLibraryFigures(t).Welch {
		w := welchOf(scatterOf(c.A), len(c.A), scatterOf(c.B), len(c.B))
		difference := shutter.Mean(c.A) - shutter.Mean(c.B)
		outside.Agree(t, statsmodels(), "Welch's t (ttest_ind)", difference/w.se, c.T, 12)
		outside.Agree(t, statsmodels(), "its degrees of freedom", w.df, c.DF, 12)
		outside.Agree(t, statsmodels(), "its p", w.probability(difference), c.P, 10)
		outside.Agree(t, statsmodels(), "half-width of its interval of 95 % (tconfint_diff)", w.halfWidth(), c.Half, 10)
	}
}

func TestHolmsProcedureAgreesWithStatsmodels(t *testing.T) {
	for _, c := range readLibraryFigures(t).Holm {
		outside.All(t, statsmodels(), "probabilities corrected by Holm's procedure (multipletests)", holm(c.P), c.Corrected, 14)
	}
}

func TestTrendAgreesWithSciPy(t *testing.T) {
	for _, c := range readLibraryFigures(t).Trend {
		outside.Agree(t, outside.SciPy(), "exact probability of falling series of 3 to 12 (kendalltau)", newTrend(c.X).falling(), c.P, 11)
	}
}

// gonum's quantile keeps nine digits or so.
func TestStudentTAgreesWithSciPy(t *testing.T) {
	for _, c := range readLibraryFigures(t).Student {
		outside.Agree(t, outside.SciPy(), "Student's t at 95 %, 1 to 1000 degrees of freedom (t.ppf)", studentT(c.DF), c.T, 8)
	}
}

func TestRangeQuantileAgreesWithSciPy(t *testing.T) {
	for _, c := range readLibraryFigures(t).Range {
		what := fmt.Sprintf("%.0f %% points of the range of 2 to 20 (studentized_range.ppf)", 100*c.P)
		outside.Agree(t, outside.SciPy(), what, rangeQuantile(c.P, c.N), c.Q, 9)
	}
}

// The scatter of spans is taken from their median deviation.
func TestTheSpreadOfSpansAgreesWithSciPy(t *testing.T) {
	for _, c := range readLibraryFigures(t).MAD {
		outside.Agree(t, outside.SciPy(), "standard deviation by the median deviation, of spans (median_abs_deviation)", shutter.RobustSD(c.X), c.SD, 12)
	}
}
