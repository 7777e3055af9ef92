package labels_test

import (
	"strings"
	"testing"

	"earshot/report"
	"earshot/report/labels"
)

func TestALabelSettlesASpeedOnlyWhereItIsSure(t *testing.T) {
	const quarter, two = "1/4", "2s"
	mark := func(s string) *string { return &s }
	time := func(s float64) *float64 { return &s }
	d := report.Document{
		Firings: []report.Firing{
			{Open: 1, Close: time(1.25), Marked: mark(quarter), Judged: true},
			{Open: 2, Close: time(4.0000004), Marked: mark(two), Judged: true},
			{Open: 5, Close: time(5.25), Marked: mark(quarter), Judged: true, Assumed: true},
			{Open: 6, Close: time(6.25), Marked: mark(quarter), Reason: "could be 1/4 or 1/2"},
			{Open: 7, Close: time(7.25), Reason: "fits none"},
			{Open: 8, Marked: mark(quarter), Symptoms: []string{"hangs open"}},
			{Open: 9, Symptoms: []string{"hangs open"}},
			{Open: 10, Close: time(15), Marked: mark(quarter), Symptoms: []string{"hangs open"}},
			{Open: 16, Close: time(17), Marked: mark("1/4\t\x1b"), Judged: true},
		},
		Speeds: []report.Speed{{Marked: quarter, Symptoms: []report.Symptom{{Name: "hangs open", Firings: []int{5, 7}}}}},
	}
	want := strings.Join([]string{
		"1.000000\t1.250000\t1/4, firing 1",
		"2.000000\t4.000000\t2s, firing 2",
		"5.000000\t5.250000\tfiring 3, 1/4 assumed",
		"6.000000\t6.250000\tfiring 4, not counted at 1/4",
		"7.000000\t7.250000\tfiring 5",
		"8.000000\t8.000000\t1/4, firing 6, never closed",
		"9.000000\t9.000000\tfiring 7, never closed",
		"10.000000\t15.000000\t1/4, firing 8, stayed open",
		"16.000000\t17.000000\t1/4\\t\\x1b, firing 9",
		"",
	}, "\n")
	var b strings.Builder
	if err := labels.Write(&b, d); err != nil {
		t.Fatal(err)
	}
	if b.String() != want {
		t.Errorf("wrote\n%swant\n%s", b.String(), want)
	}
	if _, err := labels.Read(strings.NewReader(strings.Replace(b.String(), `1/4\t\x1b`, "1/4", 1))); err != nil {
		t.Errorf("what was written can't be read: %v", err)
	}
}
