package report_test

import (
	"strings"
	"testing"

	"earshot/report"
	"earshot/report/internal/sample"
)

func TestWhatMakesRecordsHardToCompareIsPointedOut(t *testing.T) {
	warm := 25.0
	for name, c := range map[string]struct {
		change func(before, after *report.Document)
		want   string
	}{
		"another lens":        {func(_, b *report.Document) { b.Lens.Serial = "7" }, "records of two lenses"},
		"another policy":      {func(_, b *report.Document) { b.Policy.Good = 0.4 }, "different limits: policy standard (1/3 stop and 1/2 stop) before, standard (0.40 stop"},
		"other rest":          {func(a, b *report.Document) { a.Lens.Rested, b.Lens.Rested = "90d", "" }, "rest differs (before: 90d; after: not told): a shutter behaves better after exercise"},
		"another temperature": {func(_, b *report.Document) { b.Lens.Temperature = &warm }, "before: 18 °C; after: 25 °C"},
		"the same recording":  {func(a, b *report.Document) { b.Clips[1].SHA256 = a.Clips[0].SHA256 }, "both judge the same recording"},
		"the wrong order":     {func(a, b *report.Document) { *a, *b = *b, *a }, "the first record is the newer one"},
		"another edge":        {func(_, b *report.Document) { b.Firings[0].Edge = "start" }, "different parts of the blades' movement, the end stop before and the start and the end stop after: the edge term covers"},
		"times set by hand": {func(a, _ *report.Document) {
			a.Clips[0].ByHand = &report.ByHand{File: "labels.txt", AsHeard: 5, Moved: 2}
		}, "before: 2 moved, 5 as heard; after: none"},
		"one edge by hand": {func(a, _ *report.Document) {
			for i := range a.Firings {
				a.Firings[i].Edge = "by hand"
			}
		}, "by hand before and the end stop after"},
		"another kind": {func(_, b *report.Document) { b.Lens.Shutter = "focal-plane" }, "two kinds of shutter"},
	} {
		t.Run(name, func(t *testing.T) {
			before, after := sample.BeforeService(), sample.Serviced()
			c.change(&before, &after)
			got := strings.Join(report.Compare(before, after, false, "").Warnings, "\n")
			if !strings.Contains(got, c.want) {
				t.Errorf("warnings are\n%s\nwant %q", got, c.want)
			}
		})
	}
}

func TestNothingIsCalledChangedBetweenARecordAndItself(t *testing.T) {
	c := report.Compare(sample.BeforeService(), sample.BeforeService(), true, "")
	if c.Changed || !strings.Contains(c.Sum, "No change shown") {
		t.Errorf("changed %v: %s", c.Changed, c.Sum)
	}
}

func TestADifferenceOfEdgesForbidsTheSameSetUp(t *testing.T) {
	before, after := sample.BeforeService(), sample.Serviced()
	after.Firings[0].Edge = "start"
	if report.Compare(before, after, true, "").SameSet {
		t.Error("records timed by different edges count as one set-up")
	}
}
