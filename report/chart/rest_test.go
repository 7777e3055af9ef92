package chart

import (
	"strings"
	"testing"

	"earshot/report"
	"earshot/report/chart/paper"
	"earshot/report/internal/sample"
)

func TestTheFirstFiringAfterARestIsMarkedApart(t *testing.T) {
	const woke, first = "first after 90 d rest", "first at its speed"
	for _, c := range []struct {
		name    string
		d       report.Document
		circled int // more circles than without the rest: the mark and its sample
	}{
		{"one inside the chart", sample.AfterRest(sample.Healthy, 0), 2},
		{"one that stayed open", sample.AfterRest(sample.Troubled, 5), 2},
	} {
		f := New(c.d)
		names := map[string]bool{}
		for _, e := range f.legend() {
			names[e.Name] = true
		}
		if !names[woke] || !names[first] || names["first firing"] {
			t.Errorf("%s: the legend names %v", c.name, names)
		}
		if words := wordsOf(t, c.d); !strings.Contains(words, woke) {
			t.Errorf("%s: the chart says %q", c.name, words)
		}
		marked := 0
		for _, col := range f.Columns {
			for _, pt := range col.Points {
				if pt.Woke {
					marked++
				}
			}
		}
		if marked != 1 {
			t.Errorf("%s: %d firings are the first after the rest", c.name, marked)
		}
		plain := c.d
		plain.Rest = nil
		if got := drawnRings(t, c.d) - drawnRings(t, plain); got != c.circled {
			t.Errorf("%s: %d rings more than without the rest, want %d", c.name, got, c.circled)
		}
	}
}

// drawnRings counts the circles that are drawn around something.
func drawnRings(t *testing.T, d report.Document) int {
	t.Helper()
	var b strings.Builder
	if err := Write(&b, d, paper.SVG); err != nil {
		t.Fatal(err)
	}
	return strings.Count(b.String(), "A7.5,7.5") / 2 // a circle is two arcs
}

func TestAChartSaysThatTimesWereSetByHand(t *testing.T) {
	d := sample.Healthy()
	if words := wordsOf(t, d); strings.Contains(words, "by hand") {
		t.Errorf("none was: %q", words)
	}
	d.Clips[0].ByHand = &report.ByHand{File: "hand.txt", Moved: 1, AsHeard: 17}
	if words := wordsOf(t, d); !strings.Contains(words, "Times set by hand: 1 moved, 17 as heard. 18 firings, 18 counted.") {
		t.Errorf("the chart says %q", words)
	}
}
