package shutter

import (
	"fmt"
	"math"
	"math/big"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"earshot/dsp/outside"
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

// statisticsBound is the digits of the certified standard deviation that the one of
// the data as float64 holds them has, worked out with some 60 digits: what no arithmetic
// on float64 data can better.
func statisticsBound(x []float64, certified float64) float64 {
	number := func(v float64) *big.Float { return new(big.Float).SetPrec(200).SetFloat64(v) }
	sum, squares := number(0), number(0)
	for _, v := range x {
		sum.Add(sum, number(v))
	}
	mean := sum.Quo(sum, number(float64(len(x))))
	for _, v := range x {
		d := number(v)
		d.Sub(d, mean)
		squares.Add(squares, d.Mul(d, d))
	}
	exact, _ := squares.Sqrt(squares.Quo(squares, number(float64(len(x)-1)))).Float64()
	return -math.Log10(math.Abs(exact-certified) / certified)
}

// The certified values of NIST StRD, univariate summary statistics. The data of
// NumAcc3 and NumAcc4 are not exact in binary, which bounds their digits.
func TestMeanAndSDHaveTheCertifiedDigitsOfNIST(t *testing.T) {
	nist := outside.Source{
		Name:    "NIST Statistical Reference Datasets (StRD), univariate summary statistics",
		Figures: "data and certified values of NIST, by way of Apache Commons Math (testdata/nist)",
	}
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
		what := "standard deviation of " + c.name
		if bound := statisticsBound(x, c.sd); bound < 12 {
			what += fmt.Sprintf(", whose data as float64 allow %.1f", math.Floor(10*bound)/10)
		}
		outside.Agree(t, nist, "mean of "+c.name, Mean(x), c.mean, 14)
		outside.Agree(t, nist, what, SD(x), c.sd, c.digits)
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
		if got := Median(c.x); got != c.want {
			t.Errorf("%s: median(%v) = %v, want %v", c.name, c.x, got, c.want)
		}
	}
}

func TestFiguresOfFewerThanTwoAreZero(t *testing.T) {
	for _, x := range [][]float64{nil, {3}} {
		if SD(x) != 0 || Range(x) != 0 {
			t.Errorf("sd(%v) = %v, spread = %v, want 0, 0", x, SD(x), Range(x))
		}
	}
}
