package report_test

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"earshot/report"
	"earshot/report/internal/golden"
)

// serviced is the fixture half a year later: what hung and scattered is in order, and
// 1 s, slow before, is on the mark.
func serviced() report.Document {
	d := document()
	d.Made = d.Made.Add(180 * 24 * time.Hour)
	d.Lens.Rested = ""
	d.Clips[0].SHA256, d.Clips[1].SHA256 = strings.Repeat("ab", 32), strings.Repeat("cd", 32)
	scatter, deviation, u95 := 0.007, -0.03, 0.02
	d.Speeds[0].Deviation, d.Speeds[0].Scatter, d.Speeds[0].DF = &deviation, &scatter, 6
	d.Speeds[1].Deviation, d.Speeds[1].U95, d.Speeds[1].Symptoms = &deviation, &u95, []report.Symptom{}
	d.Speeds = d.Speeds[:2]
	return d
}

func beforeService() report.Document {
	d := document()
	scatter := 0.007
	d.Speeds[0].Scatter, d.Speeds[0].DF = &scatter, 6
	return d
}

func TestAComparisonKeepsItsFormat(t *testing.T) {
	c := report.Compare(beforeService(), serviced(), false, "v0.1.0")
	var text, json bytes.Buffer
	if err := report.WriteComparison(&text, c); err != nil {
		t.Fatal(err)
	}
	if err := report.WriteComparisonJSON(&json, c); err != nil {
		t.Fatal(err)
	}
	golden.Check(t, "comparison.txt", text.Bytes())
	golden.Check(t, "comparison.json", json.Bytes())
	schema, err := jsonschema.NewCompiler().Compile("../docs/earshot-1.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	v, err := jsonschema.UnmarshalJSON(&json)
	if err != nil {
		t.Fatal(err)
	}
	if err := schema.Validate(v); err != nil {
		t.Error(err)
	}
}

func TestWhatMakesRecordsHardToCompareIsPointedOut(t *testing.T) {
	warm := 25.0
	for name, c := range map[string]struct {
		change func(before, after *report.Document)
		want   string
	}{
		"another lens":        {func(_, b *report.Document) { b.Lens.Serial = "7" }, "records of two lenses"},
		"another policy":      {func(_, b *report.Document) { b.Policy.Good = 0.4 }, "different limits: policy standard (1/3 stop and 1/2 stop) before, standard (0.40 stop"},
		"other rest":          {func(a, b *report.Document) { a.Lens.Rested, b.Lens.Rested = "90d", "" }, "rest differs, and a shutter behaves better after exercise: 90d before, not told after"},
		"another temperature": {func(_, b *report.Document) { b.Lens.Temperature = &warm }, "18 °C before, 25 °C after"},
		"the same recording":  {func(a, b *report.Document) { b.Clips[1].SHA256 = a.Clips[0].SHA256 }, "both judge the same recording"},
		"the wrong order":     {func(a, b *report.Document) { *a, *b = *b, *a }, "the first record is the newer one"},
		"another edge":        {func(_, b *report.Document) { b.Firings[0].Edge = "start" }, "different parts of the blades' movement, the end stop before and the start and the end stop after: the edge term covers"},
		"times set by hand": {func(a, _ *report.Document) {
			a.Clips[0].ByHand = &report.ByHand{File: "labels.txt", AsHeard: 5, Moved: 2}
		}, "2 moved, 5 as heard before, none after"},
		"one edge by hand": {func(a, _ *report.Document) {
			for i := range a.Firings {
				a.Firings[i].Edge = "by hand"
			}
		}, "by hand before and the end stop after"},
		"another kind": {func(_, b *report.Document) { b.Lens.Shutter = "focal-plane" }, "two kinds of shutter"},
	} {
		t.Run(name, func(t *testing.T) {
			before, after := beforeService(), serviced()
			c.change(&before, &after)
			got := strings.Join(report.Compare(before, after, false, "").Warnings, "\n")
			if !strings.Contains(got, c.want) {
				t.Errorf("warnings are\n%s\nwant %q", got, c.want)
			}
		})
	}
}

func TestNothingIsCalledChangedBetweenARecordAndItself(t *testing.T) {
	c := report.Compare(beforeService(), beforeService(), true, "")
	if c.Changed || !strings.Contains(c.Sum, "No change shown") {
		t.Errorf("changed %v: %s", c.Changed, c.Sum)
	}
}

func TestADifferenceOfEdgesForbidsTheSameSetUp(t *testing.T) {
	before, after := beforeService(), serviced()
	after.Firings[0].Edge = "start"
	if report.Compare(before, after, true, "").SameSet {
		t.Error("records timed by different edges count as one set-up")
	}
}
