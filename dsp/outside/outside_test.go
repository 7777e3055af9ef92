package outside

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"testing"
)

// recorder is a test that notes how it fared.
type recorder struct {
	testing.TB
	failed   []string
	findings []Finding
}

func (r *recorder) Helper() {}
func (r *recorder) Errorf(text string, args ...any) {
	r.failed = append(r.failed, fmt.Sprintf(text, args...))
}
func (r *recorder) Attr(key, value string) {
	var f Finding
	if err := json.Unmarshal([]byte(value), &f); err == nil && key == Key {
		r.findings = append(r.findings, f)
	}
}

var handbook = Source{"a handbook", "made up"}

func TestTooFewDigitsFail(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		name      string
		got, want []float64
		asked     float64
		digits    float64 // −1: fails
	}{
		{"all of them", []float64{0.1}, []float64{0.1}, 16, 16},
		{"one part in a thousand is 3", []float64{1.001}, []float64{1}, 2.9, 3},
		{"and no 4", []float64{1.001}, []float64{1}, 4, -1},
		{"the sign counts", []float64{-1}, []float64{1}, 1, -1},
		{"the worst of many counts", []float64{1, 1.01, 1}, []float64{1, 1, 1}, 1.9, 2},
		{"by the largest of them", []float64{1000, 0.01}, []float64{1000, 0}, 4.9, 5},
		{"0 is held to decimals", []float64{0.001}, []float64{0}, 2.9, 3},
		{"what is no number agrees with nothing", []float64{nan}, []float64{1}, 0, -1},
		{"wherever it stands", []float64{1, nan, 1}, []float64{1, 1, 1}, 0, -1},
		{"nor anything with it", []float64{1}, []float64{nan}, 0, -1},
		{"one is missing", []float64{1}, []float64{1, 1}, 1, -1},
		{"nothing compared is no agreement", nil, nil, 1, -1},
	} {
		t.Run(c.name, func(t *testing.T) {
			var r recorder
			All(&r, handbook, c.name, c.got, c.want, c.asked)
			if c.digits < 0 {
				if len(r.failed) != 1 || len(r.findings) != 0 {
					t.Errorf("failed %q, found %v, want one failure and nothing found", r.failed, r.findings)
				}
				return
			}
			if len(r.failed) > 0 || len(r.findings) != 1 {
				t.Fatalf("failed %q, found %v", r.failed, r.findings)
			}
			if f := r.findings[0]; math.Abs(f.Digits-c.digits) > 1e-9 || f.Held != c.asked || f.Values != len(c.want) || f.Source != handbook || f.What != c.name {
				t.Errorf("found %+v, want %g digits", f, c.digits)
			}
		})
	}
}

func TestAPrintedFigureIsHeldToItsLastDigit(t *testing.T) {
	for _, c := range []struct {
		got     float64
		printed string
		digits  float64 // 0: fails
	}{
		{12.7062, "12.71", 4}, {12.7049, "12.71", 0}, {0.0416667, "0.0417", 3}, {-1.8608135, "-1.8608", 5},
		{85.3, "85", 2}, {2.999, "3.00", 3}, {math.NaN(), "1", 0},
	} {
		var r recorder
		Printed(&r, handbook, "a figure", c.got, c.printed)
		if c.digits == 0 && (len(r.failed) != 1 || len(r.findings) > 0) {
			t.Errorf("%v passes for %s", c.got, c.printed)
		}
		if c.digits > 0 && (len(r.failed) > 0 || r.findings[0].Digits != c.digits || !r.findings[0].Printed) {
			t.Errorf("%v for %s: failed %q, found %v, want %g digits", c.got, c.printed, r.failed, r.findings, c.digits)
		}
	}
}

func TestOneValueThatDiffersFails(t *testing.T) {
	for _, c := range []struct {
		got, want []int
		agree     bool
	}{
		{[]int{1, 2}, []int{1, 2}, true}, {[]int{1, 3}, []int{1, 2}, false}, {[]int{1}, []int{1, 2}, false}, {nil, nil, false},
	} {
		var r recorder
		Exact(&r, handbook, "counts", c.got, c.want)
		if agree := len(r.failed) == 0; agree != c.agree || agree != (len(r.findings) == 1) {
			t.Errorf("%v for %v: failed %q, found %v", c.got, c.want, r.failed, r.findings)
		}
	}
}

func TestWhatIsNotComparedSaysWhy(t *testing.T) {
	var r recorder
	Apart(&r, handbook, "its last page", "it is torn")
	if want := []Finding{{Source: handbook, What: "its last page", Apart: "it is torn"}}; !slices.Equal(r.findings, want) {
		t.Errorf("found %+v, want %+v", r.findings, want)
	}
}

func TestTooSmallAShareFails(t *testing.T) {
	for _, c := range []struct {
		alike, of int
		agree     bool
	}{{95, 100, true}, {94, 100, false}, {0, 0, false}} {
		var r recorder
		Share(&r, handbook, "within a millimetre", c.alike, c.of, 0.95)
		if agree := len(r.failed) == 0; agree != c.agree || agree != (len(r.findings) == 1) {
			t.Errorf("%d of %d: failed %q, found %v", c.alike, c.of, r.failed, r.findings)
		}
	}
}
