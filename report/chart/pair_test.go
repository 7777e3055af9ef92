package chart

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"earshot/report"
)

func comparison() report.Comparison {
	return report.Compare(troubled(), healthy(), false, "v0.1.0")
}

func TestAComparisonIsDrawnAsItWas(t *testing.T) {
	var b bytes.Buffer
	if err := WriteComparison(&b, comparison(), SVG); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join("testdata", "comparison.svg")
	if *update {
		if err := os.WriteFile(file, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), b.String()); d != "" {
		t.Errorf("comparison.svg (-want +got):\n%s", d)
	}
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
