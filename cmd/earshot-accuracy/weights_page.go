package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	whole "earshot/shutter/hear/scene"
)

// weightLine is a line of a table's text: name, weight, standard error and meaning.
var weightLine = regexp.MustCompile(`^(.*\S)\s+(-?[\d.]+) ± ([\d.]+)  (.*)$`)

// writeWeights writes the page of the weights.
func writeWeights(path string, t *whole.Table) error {
	if err := os.WriteFile(filepath.Clean(path), []byte(weightsPage(t)), 0o644); err != nil {
		return fmt.Errorf("%w: run it from the top of the project", err)
	}
	return nil
}

// weightsPage says what each weight is. Standard errors are left out of a table
// that has none, as the program's own.
func weightsPage(t *whole.Table) string {
	var arcs, odds grid
	head := []string{"feature", "weight"}
	if t.ArcErrors != (whole.Weights{}) {
		head = append(head, "standard error")
	}
	for line := range strings.Lines(t.Text()) {
		m := weightLine.FindStringSubmatch(strings.TrimSuffix(line, "\n"))
		if m == nil {
			panic("earshot-accuracy: no line of a table of weights: " + line)
		}
		name, isWhole := strings.CutPrefix(m[1], "whole: ")
		row := append([]string{name + ": " + m[4]}, m[2:2+len(head)-1]...)
		if isWhole {
			odds = append(odds, row)
		} else {
			arcs = append(arcs, row)
		}
	}
	return aboutWeights + "\n## Of a firing\n\n" + aboutArcs + "\n" + append(grid{head}, arcs...).String() +
		"\n## Of a whole explanation\n\n" + aboutOdds + "\n" + append(grid{head}, odds...).String()
}

const aboutWeights = `# What speaks for a firing, and how much

Written by ` + "`make train`" + `, which makes seeded recordings by three generators, listens to them
as to any clip, and fits these weights by maximum likelihood. A weight times its feature
adds to the logarithm of the odds: above 0 it speaks for a firing, below 0 against it.
`

const aboutArcs = `An opening and a closing, among all sounds of the clip:
`

const aboutOdds = `All firings of a clip together, against there being no shutter at all:
`
