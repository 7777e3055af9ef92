package drawer_test

import (
	"fmt"

	"earshot/report/drawer"
	"earshot/shutter"
)

// A list as a spreadsheet writes it: two clips of one lens, and a line that is wrong.
func ExampleRead() {
	list, problems := drawer.Read([]byte(`lens;serial;clip;speeds
Corvane 105;3400049;corvane-slow.wav;1x3 1/2x3
Corvane 105;3400049;corvane-fast.wav;1/15x3 1/30x5
Vastrel 90;;vastrel.wav;1/3oo
`))
	lenses, more := list.Lenses()
	for _, l := range lenses {
		fmt.Printf("%s: clips %d, told %q\n", l.Title(), len(l.Clips), shutter.FormatSteps(l.Steps))
	}
	for _, p := range append(problems, more...) {
		fmt.Println(p)
	}
	// Output:
	// Corvane 105, no. 3400049: clips 2, told "1x3 1/2x3 1/15x3 1/30x5"
	// Vastrel 90: clips 1, told ""
	// line 4, column speeds (D): speed 1, "1/3oo": write it as on the dial or in full: 1, 1/30, 30 (for 1/30), 2s or 0.5s
}
