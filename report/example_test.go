package report_test

import (
	"os"
	"time"

	"earshot/report"
	"earshot/report/write"
	"earshot/shutter"
	"earshot/shutter/assign"
	"earshot/shutter/judge"
)

// A lens judged at one speed, as a table for a person. WriteJSON makes a record of the
// same document, WriteCSV a row a firing.
func Example() {
	var firings []shutter.Firing
	for i, duration := range []float64{0.611, 0.614, 0.612} {
		open := 2 + 4*float64(i)
		firings = append(firings, shutter.Firing{Open: open, Close: open + duration, Closed: true, U: 2e-5})
	}
	half := shutter.Mark{Label: "1/2", Nominal: 0.5}
	laying := assign.Laying{Runs: []assign.Run{{Mark: half, Firings: []int{0, 1, 2}}}}
	d := report.New(judge.Judge(firings, laying, judge.Standard()), report.Facts{
		Version: "v1.0.0", Made: time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC), Lens: report.Lens{Name: "Lindqvar 75 mm f/3.5"},
	})
	write.Text(os.Stdout, d)
	// Output:
	// Lindqvar 75 mm f/3.5. 25 November 2026
	// Policy standard: good within 1/3 stop of the mark, service beyond 1/2 stop.
	//
	// marked   exact  measured  off the mark                95 % sure within     spread  firings  verdict
	// 1/2 s   500 ms  612.3 ms  0.3 stop slow (more light)        ±0.01 stop  0.01 stop        3  good
	//
	// Shutter: good at the speeds measured, 1/2 s (partly checked).
	//   every speed judged is near its mark and repeats: 1/2
	//   partly checked: 1 speed was judged, and four make a check
	// Next:
	//   record at least four speeds, the slowest among them, each fired three times or more
	// 3 firings heard, 3 counted.
}
