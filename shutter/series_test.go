package shutter

import (
	"math"
	"slices"
	"testing"
)

// The marks are those of ISO 516:2019 and JIS B 7091:1992; the denominators behind
// them are the true sequence of US Army Signal course SS0508, tables 1-3 to 1-5.
func TestBinaryMarksStandForTheTrueSequence(t *testing.T) {
	for label, denominator := range map[string]float64{"1": 1, "1/2": 2, "1/4": 4, "1/8": 8, "1/15": 16, "1/30": 32,
		"1/60": 64, "1/125": 128, "1/250": 256, "1/500": 512, "1/1000": 1024} {
		m, ok := Binary().Find(label)
		if !ok || m.Nominal != 1/denominator {
			t.Errorf("Find(%q) = %v, %v, want 1/%g s", label, m, ok, denominator)
		}
	}
}

// APEX, as D. A. Kerr sets it out (issue 7, 2007): the time of whole Tv is 2^-Tv.
// Exif 2.2, Annex C, gives Tv 4 as 1/16 s, the time behind 1/15.
func TestBinaryMarksAreTheWholeTimeValuesOfAPEX(t *testing.T) {
	for i, m := range Binary().Marks {
		tv := float64(i - 2) // from 4s
		if got := -math.Log2(m.Nominal); got != tv {
			t.Errorf("Tv of %s = %g, want %g", m.Label, got, tv)
		}
	}
	if m, _ := Binary().Find("1/15"); -math.Log2(m.Nominal) != 4 {
		t.Errorf("Tv of 1/15 = %g, want 4", -math.Log2(m.Nominal))
	}
}

// A ShutterSpeedValue of 8643856/1000000 is 1/400 s in Exif 2.2, Annex C.
func TestAMarkOfNeitherSeriesIsItsWrittenValueAsInExif(t *testing.T) {
	m, err := ParseMark("1/400")
	if err != nil || math.Abs(-math.Log2(m.Nominal)-8.643856) > 1e-6 {
		t.Errorf("ParseMark(1/400) = %v, %v, want Tv 8.643856", m, err)
	}
}

// Rounding on the dial: 1/15 to 1/60 read 6.67 %, 1/125 to 1/1000 read 2.4 % longer
// than the exact time; ISO 516 and JIS B 7091 marks against SS0508's sequence.
func TestTakingAMarkAtItsWordWouldBiasByTheDialsRounding(t *testing.T) {
	written := map[string]float64{"1/15": 15, "1/30": 30, "1/60": 60, "1/125": 125, "1/250": 250, "1/500": 500, "1/1000": 1000}
	for _, m := range Binary().Marks {
		w, rounded := written[m.Label]
		if !rounded {
			continue
		}
		want := 2.4
		if w < 100 {
			want = 6.67
		}
		if got := 100 * (1/w/m.Nominal - 1); math.Abs(got-want) > 0.01 {
			t.Errorf("%s is written %.3f %% longer than it is, want %g", m.Label, got, want)
		}
	}
}

// Time values of a 1930s leaf shutter's dial by Tv = log2(1/T), to four places.
func TestOlderMarksAreTheTimesThemselves(t *testing.T) {
	want := []float64{0, 1, 2.3219, 3.3219, 4.6439, 5.6439, 6.6439, 7.9658}
	for i, tv := range want {
		if m := Older().Marks[i]; math.Abs(-math.Log2(m.Nominal)-tv) > 5e-5 {
			t.Errorf("Tv of %s = %.4f, want %.4f", m.Label, -math.Log2(m.Nominal), tv)
		}
	}
}

func TestEachSeriesIsInDialOrder(t *testing.T) {
	for _, s := range []Series{Binary(), Older()} {
		if !slices.IsSortedFunc(s.Marks, DialOrder) {
			t.Errorf("%s: %v is not slowest first", s.Name, s.Marks)
		}
	}
}

func TestAMarkOnBothDialsFollowsItsCompany(t *testing.T) {
	for _, c := range []struct {
		name, list, label string
		nominal           float64
	}{
		{"alone it is modern", "1/250", "1/250", 1.0 / 256},
		{"among older marks it is older", "1/25 1/50 1/100 1/250", "1/250", 1.0 / 250},
		{"among modern marks it is modern", "1/60, 1/125, 1/250, 1/500", "1/500", 1.0 / 512},
		{"marks that mean the same on both say nothing", "1 1/2 1/250", "1/250", 1.0 / 256},
		{"as many of the one as of the other leave it modern", "1/25 1/30 1/250", "1/250", 1.0 / 256},
		{"a mark told twice counts once", "1/25 1/25 1/30 1/60 1/250", "1/250", 1.0 / 256},
		{"marks of neither series say nothing", "1/300 1/400 1/100 1/500", "1/500", 1.0 / 500},
	} {
		t.Run(c.name, func(t *testing.T) {
			steps, err := ParseSteps(c.list)
			if err != nil {
				t.Fatal(err)
			}
			if m := steps[len(steps)-1].Mark; m != (Mark{c.label, c.nominal}) {
				t.Errorf("last of %q = %v, want %s of %g s", c.list, m, c.label, c.nominal)
			}
		})
	}
}

func TestNearestMarkIsNearestInStops(t *testing.T) {
	for _, c := range []struct {
		duration float64
		label    string
		off      float64 // ISO 516 marks' exact times; 20 % is 0.263 stop
	}{{1.2, "1", 0.263}, {0.7, "1/2", 0.485}, {0.0625, "1/15", 0}, {60, "4s", 3.907}, {0.0001, "1/1000", -3.288}} {
		m, off := Binary().Nearest(c.duration)
		if m.Label != c.label || math.Abs(off-c.off) > 1e-3 {
			t.Errorf("Nearest(%g) = %s, %.3f, want %s, %.3f", c.duration, m.Label, off, c.label, c.off)
		}
	}
}
