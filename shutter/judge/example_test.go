package judge_test

import (
	"fmt"

	"earshot/shutter"
	"earshot/shutter/assign"
	"earshot/shutter/judge"
)

// A lens fired three times at each of two speeds: 1/2 is where it should be, 1/8
// stays open for 167 ms instead of 125.
func ExampleJudge() {
	half, eighth := shutter.Mark{Label: "1/2", Nominal: 0.5}, shutter.Mark{Label: "1/8", Nominal: 0.125}
	var firings []shutter.Firing
	for i, d := range []float64{0.513, 0.510, 0.511, 0.167, 0.168, 0.166} {
		open := 1 + 3*float64(i)
		firings = append(firings, shutter.Firing{Open: open, Close: open + d, Closed: true, U: 20e-6})
	}
	laying := assign.Laying{Runs: []assign.Run{
		{Mark: half, Firings: []int{0, 1, 2}},
		{Mark: eighth, Firings: []int{3, 4, 5}},
	}}
	check := judge.Judge(firings, laying, judge.Standard())
	for _, s := range check.Speeds {
		fmt.Printf("%s: %v: %s\n", s.Mark.Label, s.Verdict, s.Why)
	}
	fmt.Println(check.Verdict, check.Partly)
	// Output:
	// 1/2: good: on the mark, 95 % sure within 0.01 stop, and its 3 firings agree within 0.01
	// 1/8: steady: it repeats well enough, but it is 0.4 stop slow (more light): its true time is 167 ms; set a meter 1/3 stop slower than the mark
	// steady true
}
