package chart

import (
	"bytes"
	"testing"

	"earshot/report"
	"earshot/report/chart/paper"
	"earshot/report/internal/golden"
	"earshot/report/internal/sample"
)

func comparison() report.Comparison {
	return report.Compare(sample.Troubled(), sample.Healthy(), false, "v0.1.0")
}

func TestAComparisonIsDrawnAsItWas(t *testing.T) {
	var b bytes.Buffer
	if err := WriteComparison(&b, comparison(), paper.SVG); err != nil {
		t.Fatal(err)
	}
	golden.Check(t, "comparison.svg", b.Bytes())
}

func TestAComparisonPlotsTheMeansOfBothRecords(t *testing.T) {
	c := comparison()
	f := NewComparison(c)
	for i, p := range c.Speeds {
		col := f.Columns[i]
		for _, m := range []struct {
			found *report.Found
			drawn *Mean
		}{{p.Before, col.Before}, {p.After, col.Mean}} {
			has := m.found != nil && m.found.Deviation != nil
			if has != (m.drawn != nil) || has && m.drawn.Deviation != *m.found.Deviation {
				t.Errorf("%s: found %+v, drawn %+v", p.Marked, m.found, m.drawn)
			}
		}
		if col.Changed != p.Real {
			t.Errorf("%s: an arrow %v, want %v", p.Marked, col.Changed, p.Real)
		}
	}
}
