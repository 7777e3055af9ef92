package shutter

import (
	"math"
	"slices"
	"testing"

	"earshot/dsp/outside"
)

func TestBinaryMarksStandForTheTrueSequence(t *testing.T) {
	army := outside.Source{
		Name:    "US Army Signal course SS0508, tables 1-3 to 1-5: the true sequence behind the marks",
		Figures: "read there; the marks are those of ISO 516:2019 and JIS B 7091:1992",
	}
	labels := []string{"1", "1/2", "1/4", "1/8", "1/15", "1/30", "1/60", "1/125", "1/250", "1/500", "1/1000"}
	var denominators []float64
	for _, label := range labels {
		m, ok := Binary().Find(label)
		if !ok {
			t.Fatalf("%s is on no dial", label)
		}
		denominators = append(denominators, 1/m.Nominal)
	}
	outside.Exact(t, army, "exact times of the marks from 1 to 1/1000", denominators, []float64{1, 2, 4, 8, 16, 32, 64, 128, 256, 512, 1024})
}

// The time of whole Tv is 2^-Tv, and 4s is Tv −2.
func TestBinaryMarksAreTheWholeTimeValuesOfAPEX(t *testing.T) {
	kerr := outside.Source{Name: "APEX, Tv = log2(1/T), as D. A. Kerr sets it out (APEX, issue 7, 2007)", Figures: "the definition, read there"}
	var got, want []float64
	for i, m := range Binary().Marks {
		got, want = append(got, -math.Log2(m.Nominal)), append(want, float64(i-2))
	}
	outside.Exact(t, kerr, "Tv of the marks from 4s to 1/1000, whole numbers", got, want)
}

// A ShutterSpeedValue of 8643856/1000000 is a mark of neither series, and taken as it
// is written.
func TestTimesHaveTheTvOfExif(t *testing.T) {
	exif := outside.Source{Name: "Exif 2.2, Annex C, ShutterSpeedValue", Figures: "read in descriptions of the tag"}
	for _, c := range []struct{ label, tv string }{{"1/400", "8.643856"}, {"1/15", "4"}} {
		m, err := ParseMark(c.label)
		if err != nil {
			t.Fatal(err)
		}
		outside.Printed(t, exif, "Tv of "+c.label, -math.Log2(m.Nominal), c.tv)
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

func TestOlderMarksAreTheTimesThemselves(t *testing.T) {
	dial := outside.Source{Name: "Dial of a leaf shutter of the 1930s, 1 to 1/250", Figures: "its marks, read in a description; their Tv by APEX, worked out apart"}
	for i, tv := range []string{"0", "1", "2.3219", "3.3219", "4.6439", "5.6439", "6.6439", "7.9658"} {
		outside.Printed(t, dial, "Tv of the older marks", math.Abs(math.Log2(Older().Marks[i].Nominal)), tv)
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
