package sheet_test

import (
	"fmt"
	"strings"
	"time"

	"earshot/report"
	"earshot/report/settings"
	"earshot/report/sheet"
	"earshot/shutter"
	"earshot/shutter/assign"
	"earshot/shutter/judge"
)

// What a listing says of a lens, and what a person saw of it.
func Example() {
	var firings []shutter.Firing
	for i, duration := range []float64{0.125, 0.126, 0.125} {
		open := 2 + 4*float64(i)
		firings = append(firings, shutter.Firing{Open: open, Close: open + duration, Closed: true, U: 2e-5})
	}
	eighth := shutter.Mark{Label: "1/8", Nominal: 0.125}
	laying := assign.Laying{Runs: []assign.Run{{Mark: eighth, Firings: []int{0, 1, 2}}}}
	d := report.New(judge.Judge(firings, laying, judge.Standard()), report.Facts{
		Version: "v1.0.0", Made: time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC), Lens: report.Lens{Name: "Corvane 105 mm f/3.5", Serial: "3400049"},
		Clips: []report.Clip{{File: "corvane-105.wav", SHA256: strings.Repeat("0f", 32)}},
	})
	var err error
	d.Observed, d.ObservedBy, err = settings.ReadObserved(strings.NewReader("by = \"R. Marrable\"\nglass = \"clean, a little dust\"\n"))
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := sheet.New(d, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(s.Listing())
	fmt.Printf("%s saw: %s: %s\n", s.ObservedBy, s.Observed[0].What, s.Observed[0].Seen)
	// Output:
	// Corvane 105 mm f/3.5, no. 3400049: the shutter was measured by sound on 25 November 2026 at 1/8 s, and the verdict is: good. Every speed judged is near its mark and repeats: 1/8; partly checked: 1 speed was judged, and four make a check. Fast speeds, aperture, flash contacts and film transport were not tested; sound is not light (earshot v1.0.0, corvane-105.wav sha256 0f0f0f0f0f0f).
	// R. Marrable saw: glass: clean, a little dust
}
