package heard

import (
	"strings"
	"testing"

	"earshot/report"
	"earshot/report/chart/paper"
	"earshot/report/internal/golden"
	"earshot/report/internal/sample"
	"earshot/shutter"
)

// anExplanation is why there is a firing at 3 s of the healthy shutter's clip.
func anExplanation(d report.Document) report.Explanation {
	return report.ExplainFiring(d, 1, shutter.Explanation{
		At: 3, Notes: []string{"timed by the start of the blades at both ends"},
		Candidates: []shutter.Candidate{{Open: 3.002, Close: 4.066, Why: "a firing: like the others", Evidence: []shutter.Evidence{
			{Weight: -7, What: "what any two sounds must overcome"}, {Weight: 12.5, What: "both ends stand out"}, {Weight: -0.01, What: "nothing much"}}}},
		Sounds: []shutter.Nearby{{At: 2.9, Level: -40, Over: 12}, {At: 3.002, Level: -20, Over: 30, Is: "opening of firing 2"}, {At: 4.066, Level: -21, Over: 31, Is: "closing of firing 2"}},
	})
}

func TestThePictureOfEvidenceSaysWhatSpeaksForAFiring(t *testing.T) {
	d := sample.Healthy()
	v, err := NewEvidence(d, anExplanation(d), clicks(d))
	if err != nil {
		t.Fatal(err)
	}
	b, err := v.Draw(paper.SVG)
	if err != nil {
		t.Fatal(err)
	}
	golden.Check(t, "evidence.svg", b)
	golden.LookAt(t, "evidence", func() ([]byte, error) { return v.Draw(paper.PNG) })
	text := golden.TextOf(t, b)
	for _, want := range []string{"Firing 2 of corvane-105.wav", "A firing: like the others.", "both ends stand out", "+12.5", "−7.0", "together", "+5.5",
		"b: opening of firing 2", "line: 6 other firings", "Placed at 1 s, 0.1 stop slow (more light); counted."} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
}

func TestThePictureOfATimeWithoutAFiringIsHollow(t *testing.T) {
	d := sample.Healthy()
	x := anExplanation(d)
	x.Firing, x.At, x.Candidates[0].Why = nil, 1.9, "no firing: its evidence is not above 0"
	v, err := NewEvidence(d, x, clicks(d))
	if err != nil {
		t.Fatal(err)
	}
	if p := v.wide.Panels[0]; p.Judged || !p.Doubtful || p.Open != 3.002 {
		t.Errorf("%+v", p)
	}
	x.Candidates = nil
	if v, err = NewEvidence(d, x, clicks(d)); err != nil {
		t.Fatal(err)
	}
	b, err := v.Draw(paper.SVG)
	if text := golden.TextOf(t, b); err != nil || !strings.Contains(text, "asked") || strings.Contains(text, "Both ends") {
		t.Errorf("%v\n%s", err, text)
	}
}
