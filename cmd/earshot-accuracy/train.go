package main

import (
	"fmt"
	"go/format"
	"io"
	"os"
	"path/filepath"
	"slices"

	whole "earshot/shutter/hear/scene"
)

// toTrainEach is how many recordings of each kind are made to fit the weights, and
// fewOf of how many one is taken where a few must do.
const (
	toTrainEach = 3
	fewOf       = 20
)

// train fits the weights by which a clip is explained, and writes them and their page.
// Where a generator is left out it writes nothing, and reports how well what was fitted
// to the others explains that one's recordings.
func train(o options, w io.Writer) error {
	if o.without != "" {
		if _, err := generatorCalled(o.without); err != nil {
			return err
		}
	}
	var fitted, heldOut []*lesson
	for _, g := range generators() {
		some, err := lessons(g, o)
		if err != nil {
			return err
		}
		fmt.Fprintf(w, "%s: %d recordings\n", g.name, len(some))
		if g.name == o.without {
			heldOut = some
			continue
		}
		fitted = append(fitted, some...)
	}
	t := whole.Fit(examples(fitted), func(round int, loss float64) { fmt.Fprintf(w, "round %d: loss %.1f\n", round+1, loss) })
	fmt.Fprint(w, "\n"+t.Text())
	if o.without != "" {
		_, err := io.WriteString(w, "\n"+reportHeldOut(o.without, heldOut, &t))
		return err
	}
	if err := writeTable(o.train, &t); err != nil {
		return err
	}
	if o.weights == "" {
		return nil
	}
	return writeWeights(o.weights, &t)
}

// writeTable writes the fitted weights as source.
func writeTable(path string, t *whole.Table) error {
	source, err := format.Source([]byte(t.Go()))
	if err != nil {
		return fmt.Errorf("the table of weights is no Go: %w", err)
	}
	if err := os.WriteFile(filepath.Clean(path), source, 0o644); err != nil {
		return fmt.Errorf("%w: run it from the top of the project", err)
	}
	return nil
}

// lessons are recordings of a generator, made and listened to.
func lessons(g generator, o options) ([]*lesson, error) {
	each := o.each
	if each == 0 {
		each = toTrainEach
	}
	if o.few {
		each = 1
	}
	takes, err := g.all(toTrain, o.seed, each)
	if err != nil {
		return nil, err
	}
	if o.few {
		takes = everyNth(takes, fewOf)
	}
	return listenToAll(takes)
}

// everyNth is the first of each n takes.
func everyNth(takes []take, n int) (some []take) {
	for chunk := range slices.Chunk(takes, n) {
		some = append(some, chunk[0])
	}
	return some
}
