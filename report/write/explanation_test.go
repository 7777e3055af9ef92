package write

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"earshot/report"
	"earshot/shutter"
)

func explanation() shutter.Explanation {
	return shutter.Explanation{
		At: 3.8, Notes: []string{"timed by the start of the blades at both ends"},
		Candidates: []shutter.Candidate{{Open: 3.80051, Close: math.Inf(1), Why: "a firing: like the others",
			Evidence: []shutter.Evidence{{Weight: -7, What: "what any two sounds must overcome"}, {Weight: 9.26, What: "sudden\x1b[31m"}, {Weight: -0.04, What: "little"}}}},
		Sounds: []shutter.Nearby{{At: 3.80051, Level: -21.04, Over: 34.2, Is: "opening of firing 1"}},
	}
}

func documentOf(file string) report.Document {
	return report.Document{Clips: []report.Clip{{File: file}}, Firings: []report.Firing{{Open: 3.80051, Reason: "the clip ends before it closes"}}}
}

func TestAnExplanationIsWords(t *testing.T) {
	var b bytes.Buffer
	if err := Explanation(&b, report.ExplainFiring(documentOf("corvane.wav"), 0, explanation())); err != nil {
		t.Fatal(err)
	}
	want := strings.TrimLeft(`
Firing 1 of corvane.wav, opened at 3.801 s, at no speed.

Evidence for (+) and against (−), as natural logarithms of odds; 3 is 20 to 1.

Opening at 3.801 s, no closing
    −7.0  what any two sounds must overcome
    +9.3  sudden\x1b[31m
     0.0  little
    +2.2  together: above 0 a firing is likelier than not
  A firing: like the others.

  placed at no speed; not counted: the clip ends before it closes
  timed by the start of the blades at both ends

Sounds near it:
  a  3.801 s, −21.0 dBFS, 34 dB over what came before: opening of firing 1
`, "\n")
	if b.String() != want {
		t.Errorf("got\n%s\nwant\n%s", b.String(), want)
	}
}

func TestAnExplanationOfAHostileFileIsSafeOnATerminal(t *testing.T) {
	var b bytes.Buffer
	if err := Explanation(&b, report.ExplainTime(documentOf("\x1b]0;x\a.wav"), 0, shutter.Explanation{At: 1})); err != nil || strings.ContainsAny(b.String(), "\x1b\a") {
		t.Errorf("%v, %q", err, b.String())
	}
}

func TestAnExplanationHasNoNullListsAndNoInfinity(t *testing.T) {
	for _, e := range []shutter.Explanation{{}, explanation()} {
		var b bytes.Buffer
		if err := ExplanationJSON(&b, report.ExplainTime(documentOf("a.wav"), 0, e), "v1"); err != nil {
			t.Fatal(err)
		}
		var got struct {
			Explanation map[string]any
		}
		if err := json.Unmarshal(b.Bytes(), &got); err != nil {
			t.Fatal(err)
		}
		for _, list := range []string{"candidates", "notes", "sounds"} {
			if got.Explanation[list] == nil {
				t.Errorf("%q is null", list)
			}
		}
	}
}
