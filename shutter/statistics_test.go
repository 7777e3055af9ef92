package shutter

import (
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// statisticsData reads the data of a NIST file: the lines that are one number.
func statisticsData(t *testing.T, name string) []float64 {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "testdata", "nist", name+".txt"))
	if err != nil {
		t.Fatal(err)
	}
	var x []float64
	for line := range strings.Lines(string(text)) {
		if v, err := strconv.ParseFloat(strings.TrimSpace(line), 64); err == nil {
			x = append(x, v)
		}
	}
	return x
}

// statisticsDigits is the log relative error: about the number of digits right.
func statisticsDigits(got, want float64) float64 {
	if got == want {
		return 16
	}
	return -math.Log10(math.Abs(got-want) / math.Abs(want))
}

// The certified values of NIST StRD, univariate summary statistics. The data of
// NumAcc3 and NumAcc4 are not exact in binary, which bounds their digits.
func TestMeanAndSDHaveTheCertifiedDigitsOfNIST(t *testing.T) {
	cases := []struct {
		name     string
		n        int
		mean, sd float64
		digits   float64 // of the standard deviation
	}{
		{"Lew", 200, -177.435000000000, 277.332168044316, 14},
		{"Lottery", 218, 518.958715596330, 291.699727470969, 14},
		{"Mavro", 50, 2.00185600000000, 0.000429123454003053, 12},
		{"Michelso", 100, 299.852400000000, 0.0790105478190518, 13},
		{"NumAcc1", 3, 10000002, 1, 15},
		{"NumAcc2", 1001, 1.2, 0.1, 14},
		{"NumAcc3", 1001, 1000000.2, 0.1, 9},
		{"NumAcc4", 1001, 10000000.2, 0.1, 8},
		{"PiDigits", 5000, 4.53480000000000, 2.86733906028871, 14},
	}
	for _, c := range cases {
		x := statisticsData(t, c.name)
		if len(x) != c.n {
			t.Errorf("%s has %d values, want %d", c.name, len(x), c.n)
		}
		m, s := statisticsDigits(mean(x), c.mean), statisticsDigits(sd(x), c.sd)
		t.Logf("%-8s digits right: mean %.1f, standard deviation %.1f", c.name, m, s)
		if m < 14 {
			t.Errorf("mean(%s) = %.15g, want %.15g", c.name, mean(x), c.mean)
		}
		if s < c.digits {
			t.Errorf("sd(%s) = %.15g, want %.15g to %v digits", c.name, sd(x), c.sd, c.digits)
		}
	}
}

func TestMedianIsTheUsualOne(t *testing.T) {
	cases := []struct {
		name string
		x    []float64
		want float64
	}{
		{"the middle one of an odd number", []float64{5, 1, 4, 2, 3}, 3},
		{"halfway between the middle two of an even number", []float64{9, 2, 5, 3}, 4},
		{"the only one", []float64{7}, 7},
		{"0 of none", nil, 0},
	}
	for _, c := range cases {
		if got := median(c.x); got != c.want {
			t.Errorf("%s: median(%v) = %v, want %v", c.name, c.x, got, c.want)
		}
	}
}

func TestFiguresOfFewerThanTwoAreZero(t *testing.T) {
	for _, x := range [][]float64{nil, {3}} {
		if sd(x) != 0 || spread(x) != 0 {
			t.Errorf("sd(%v) = %v, spread = %v, want 0, 0", x, sd(x), spread(x))
		}
	}
}
