package main

import (
	"go/format"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"earshot/dsp/impact"
	"earshot/dsp/known"
	whole "earshot/shutter/hear/scene"
)

// taught are lessons of three kinds of impacts.
func taught(t *testing.T) []*lesson {
	t.Helper()
	some, err := listenToAll(knownTakes("impact", []string{"leaf", "focal-plane", "nothing: still room"}, impact.Make, toTrain, 1, 1))
	if err != nil {
		t.Fatal(err)
	}
	return some
}

func TestTheSameSeedTeachesTheSame(t *testing.T) {
	first, again := examples(taught(t)), examples(taught(t))
	if !reflect.DeepEqual(first, again) {
		t.Error("the examples differ")
	}
}

func TestExamplesCountByWhatTheyTeach(t *testing.T) {
	firing := []known.Firing{at(1, 2), hung(3)}
	got := examples([]*lesson{
		{truth: known.Truth{Kind: known.Reflex, Firings: firing}, coded: true},
		{truth: known.Truth{Kind: known.FocalPlane, Firings: firing}},
		{truth: known.Truth{}},
	})
	want := []whole.Example{{Weight: 1, Reflex: true}, {Weight: 0.5}, {Weight: 0.5}, {Weight: 0.15}}
	want[2].Curtains = true
	if len(got) != len(want) {
		t.Fatalf("%d examples, want %d", len(got), len(want))
	}
	for i, x := range got {
		if w := want[i]; x.Weight != w.Weight || x.Reflex != w.Reflex || x.Curtains != w.Curtains {
			t.Errorf("example %d: weight %g, reflex %t, curtains %t, want %g, %t, %t", i, x.Weight, x.Reflex, x.Curtains, w.Weight, w.Reflex, w.Curtains)
		}
	}
	pair := whole.Pair{Open: 1, OpenStop: 1.004, Close: 2, CloseStop: 2.004, Tolerance: 0.015}
	if len(got[0].Truth) != 1 || got[0].Truth[0] != pair {
		t.Errorf("truth %v, want %v alone: what hangs is no pair", got[0].Truth, pair)
	}
}

func TestProbabilitiesAreHeldAgainstWhatWasRight(t *testing.T) {
	a := &audition{of: []int{0, 2}, aside: []bool{false, false, false, true}}
	got := calibrate([]*audition{a}, [][]float64{{0.6, 0.65, 1, 0.95}})
	want := calibrations()
	want[0].said, want[0].right, want[3].said, want[3].right = 2, 1, 1, 1
	if !reflect.DeepEqual(got, want) {
		t.Errorf("calibrate = %v, want %v", got, want)
	}
}

func TestWhatIsLeftOutIsReported(t *testing.T) {
	table := whole.Fitted()
	got := reportHeldOut("impact", taught(t), &table)
	for _, want := range []string{"| impact ", "| 0.99 and over "} {
		if !strings.Contains(got, want) {
			t.Errorf("the report lacks %q:\n%s", want, got)
		}
	}
}

func TestTheTableIsWrittenFormatted(t *testing.T) {
	table := whole.Fitted()
	path := filepath.Join(t.TempDir(), "weights.go")
	if err := writeTable(path, &table); err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if again, err := format.Source(got); err != nil || string(again) != string(got) {
		t.Errorf("not as gofmt has it (%v):\n%s", err, got)
	}
}

func TestThePageOfWeightsIsThatOfTheProgram(t *testing.T) {
	table := whole.Fitted()
	page := weightsPage(&table)
	if strings.Contains(page, "standard error") || !strings.Contains(page, "| bias: ") {
		t.Errorf("of the program's own weights errors are not known:\n%s", page)
	}
	table.ArcErrors[0] = 0.5
	if page := weightsPage(&table); !strings.Contains(page, "standard error") {
		t.Errorf("a fit has errors:\n%s", page)
	}
	path := filepath.Join(t.TempDir(), "weights.md")
	if code := run([]string{"-weights", path}, new(strings.Builder), new(strings.Builder)); code != exitMet {
		t.Fatalf("run = %d", code)
	}
	if _, err := os.Stat(path); err != nil {
		t.Error(err)
	}
}
