package main

import (
	"bytes"
	"encoding/json"
	"math/rand/v2"
	"os/exec"
	"slices"
	"testing"

	"earshot/dsp/outside"
)

// onsetCase is a case as mir_eval is asked it.
type onsetCase struct {
	References []float64 `json:"references"`
	Estimates  []float64 `json:"estimates"`
	Window     float64   `json:"window"`
}

const askMIREval = `
import json, sys, warnings
import numpy, mir_eval
warnings.simplefilter("ignore")
cases = json.load(sys.stdin)
print(json.dumps([mir_eval.onset.f_measure(numpy.array(c["references"]), numpy.array(c["estimates"]), c["window"]) for c in cases]))
`

// mirEvalRun is mir_eval itself, MIT licence.
func mirEvalRun() outside.Source {
	return outside.Source{Name: "mir_eval, onset.f_measure", Figures: "run beside this program, by Debian's python3-mir-eval"}
}

// mirEval asks mir_eval for F, precision and recall of each case.
func mirEval(t *testing.T, cases []onsetCase) [][3]float64 {
	t.Helper()
	python := ""
	for _, p := range []string{"/usr/bin/python3", "python3"} {
		if exec.Command(p, "-c", "import mir_eval").Run() == nil {
			python = p
			break
		}
	}
	if python == "" {
		missingYardstick(t, "python3-mir-eval")
	}
	asked, err := json.Marshal(cases)
	if err != nil {
		t.Fatal(err)
	}
	var stderr bytes.Buffer
	cmd := exec.Command(python, "-c", askMIREval)
	cmd.Stdin, cmd.Stderr = bytes.NewReader(asked), &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("mir_eval: %v: %s", err, stderr.Bytes())
	}
	var answers [][3]float64
	if err := json.Unmarshal(out, &answers); err != nil {
		t.Fatalf("mir_eval answered %q: %v", out, err)
	}
	return answers
}

// drawOnsets draws references a few windows apart and estimates some of which lie
// near them, doubled, missed or anywhere.
func drawOnsets(rnd *rand.Rand, window float64) onsetCase {
	c := onsetCase{References: []float64{}, Estimates: []float64{}, Window: window}
	at := 0.0
	for range rnd.IntN(40) {
		at += 4 * window * rnd.Float64()
		c.References = append(c.References, at)
		for range rnd.IntN(3) {
			c.Estimates = append(c.Estimates, max(0, at+3*window*(rnd.Float64()-0.5)))
		}
	}
	for range rnd.IntN(5) {
		c.Estimates = append(c.Estimates, (at+1)*rnd.Float64())
	}
	slices.Sort(c.Estimates)
	return c
}

// Precision and recall are left out where one side has no onsets: mir_eval calls both
// 0 there, here the one that nothing speaks against is 1. F is 0 in either.
func TestOnsetsAreCountedAsMIREvalItselfDoes(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 1))
	var cases []onsetCase
	for i := range 300 {
		window := append(windows(), 0.05)[i%4]
		cases = append(cases, drawOnsets(rnd, window))
	}
	cases = append(cases, onsetCase{References: []float64{1}, Estimates: []float64{}, Window: window})
	cases = append(cases, onsetCase{References: []float64{}, Estimates: []float64{1}, Window: window})
	var ours, theirs []float64
	competed := 0
	for i, want := range mirEval(t, cases) {
		c := cases[i]
		n := countOnsets(c.References, c.Estimates, c.Window)
		got := [3]float64{n.f1(), n.precision(), n.recall()}
		if len(c.References) == 0 || len(c.Estimates) == 0 {
			got[1], got[2] = want[1], want[2]
		}
		ours, theirs = append(ours, got[:]...), append(theirs, want[:]...)
		if want[0] > 0 && want[0] < 1 {
			competed++
		}
	}
	outside.All(t, mirEvalRun(), "F, precision and recall of onsets drawn at random", ours, theirs, 12)
	if competed < 200 {
		t.Errorf("only %d of the cases have an F between 0 and 1", competed)
	}
}
