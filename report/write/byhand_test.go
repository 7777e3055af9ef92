package write_test

import (
	"bytes"
	"strings"
	"testing"

	"earshot/report"
	"earshot/report/internal/sample"
	"earshot/report/write"
	"earshot/shutter"
)

func TestTheTableSaysWhichTimesWereSetByHand(t *testing.T) {
	sum := strings.Repeat("ab", 32)
	for _, c := range []struct {
		name string
		by   shutter.Corrected
		set  []int // firings timed by hand
		want []string
	}{
		{"none", shutter.Corrected{AsHeard: 8}, nil, []string{"Times read from hand.txt, sha256 abababababab: all as heard"}},
		{"some moved and added", shutter.Corrected{AsHeard: 5, Moved: 2, Added: 1}, []int{1, 2, 5}, []string{"Times set by hand in hand.txt, sha256 abababababab: 2 moved, 1 added, 5 as heard (set: firings 2 to 3, 6)"}},
		{"two left out", shutter.Corrected{AsHeard: 8, LeftOut: []shutter.Firing{{Open: 12.3456}, {Open: 40}}}, nil,
			[]string{"Times set by hand in hand.txt, sha256 abababababab: 2 left out, 8 as heard", "Heard and left out by hand: at 12.346, 40.000 s"}},
	} {
		d := sample.Document()
		d.Clips[0].ByHand = report.NewByHand("hand.txt", sum, c.by)
		for _, i := range c.set {
			d.Firings[i].Edge = string(shutter.EdgeHand)
		}
		var b bytes.Buffer
		if err := write.Text(&b, d); err != nil {
			t.Fatal(err)
		}
		for _, line := range c.want {
			if !strings.Contains(b.String(), "\n"+line+"\n") {
				t.Errorf("%s: no line %q in\n%s", c.name, line, b.String())
			}
		}
		if words := d.ByHandWords(); (words == "") != (c.name == "none") {
			t.Errorf("%s: the chart says %q", c.name, words)
		}
	}
}
