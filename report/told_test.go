package report_test

import (
	"bytes"
	"encoding/csv"
	"math"
	"testing"

	"earshot/report"
	"earshot/report/internal/sample"
	"earshot/report/write"
	"earshot/shutter/judge"
)

func TestWhatIsToldOfALensIsTakenOrRefused(t *testing.T) {
	for rested, good := range map[string]bool{"12h": true, "90d": true, "6w": true, "2y": true, "": false, "90": false, "d": false, "-3d": false, "1.5y": false, "3m": false, "1234567d": false} {
		if err := report.CheckRested(rested); (err == nil) != good {
			t.Errorf("rested %q: %v", rested, err)
		}
	}
	for celsius, good := range map[float64]bool{-20: true, 0: true, 35: true, -60: false, 100: false, 293: false, math.Inf(1): false, math.NaN(): false} {
		if err := report.CheckTemperature(celsius); (err == nil) != good {
			t.Errorf("%g °C: %v", celsius, err)
		}
	}
}

func TestEverySymptomIsSaidToWhoDoesNotKnowTheTradesName(t *testing.T) {
	said := map[string]bool{}
	for _, name := range []judge.SymptomName{judge.HangsOpen, judge.ClosesEarly, judge.NeedsExercise, judge.Erratic,
		judge.Hesitates, judge.LazyBlades, judge.SlowEscapement, judge.UnevenSteps} {
		f := report.Finding{Name: string(name), Speeds: []report.Speed{{Marked: "1/2", Firings: []int{0, 1, 2}}}, Firings: []int{1}}
		means := f.Plainly()[len(f.Words()):]
		if len(means) < 20 || said[means] {
			t.Errorf("%s means %q", name, means)
		}
		said[means] = true
	}
	hung := report.Finding{Name: "hangs open", Speeds: []report.Speed{{Marked: "1/2", Firings: []int{0, 1, 2}}}, Firings: []int{1}}
	if got, want := hung.Plainly(), "hangs open at 1/2 s: the blades stayed open at 1 of 3 firings there"; got != want {
		t.Errorf("Plainly() = %q, want %q", got, want)
	}
}

func TestASpeedWithoutAFiringHasItsRow(t *testing.T) {
	d := sample.Document()
	d.Speeds = append(d.Speeds, report.Speed{Marked: "1/4", Nominal: 0.25, Why: "told, and none was heard"})
	var b bytes.Buffer
	if err := write.CSV(&b, d); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 1+len(d.Firings)+1 {
		t.Fatalf("%d rows, want a heading, %d firings and the speed", len(rows), len(d.Firings))
	}
	last := map[string]string{}
	for i, name := range rows[0] {
		last[name] = rows[len(rows)-1][i]
	}
	if last["nominal_s"] != "0.25" || last["open_s"] != "" || last["lens"] != d.Lens.Name {
		t.Errorf("its row is %v", last)
	}
}
