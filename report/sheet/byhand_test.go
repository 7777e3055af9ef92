package sheet

import (
	"strings"
	"testing"

	"earshot/report"
)

func TestASheetSaysThatTimesWereSetByHand(t *testing.T) {
	d := steady()
	if how := strings.Join(how(d, nil), "\n"); strings.Contains(how, "by hand") {
		t.Errorf("none was:\n%s", how)
	}
	d.Clips[0].ByHand = &report.ByHand{File: "hand.txt", SHA256: strings.Repeat("cd", 32), AsHeard: 4, Moved: 2, LeftOut: []float64{3.5}}
	got := strings.Join(how(d, nil), "\n")
	for _, want := range []string{"Times set by hand in hand.txt, sha256 cdcdcdcdcdcd: 2 moved, 1 left out, 4 as heard.", "Heard and left out by hand: at 3.500 s.", "with this recording, these labels and the speeds above"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
}
