package main

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"earshot/dsp/outside"
)

// Case 05 of the tests of mir_eval, MIT licence, at its window of 50 ms.
func TestOnsetsAreCountedAsInThePublishedCase(t *testing.T) {
	published := outside.Source{Name: "mir_eval, its test data onset/ref05, est05 and output05", Figures: "read there"}
	references := []float64{0.194467120, 1.128639455, 2.023877551, 4.079727891}
	estimates := []float64{0.2438095238, 1.190022675736961, 2.086893424036281, 4.130249433106576, 4.612063492063492}
	n := countOnsets(references, estimates, 0.05)
	outside.Printed(t, published, "precision", n.precision(), "0.2")
	outside.Printed(t, published, "recall", n.recall(), "0.25")
	outside.Printed(t, published, "F", n.f1(), "0.2222")
}

func TestOnsetsAreCountedOneToOne(t *testing.T) {
	cases := []struct {
		name                  string
		references, estimates []float64
		window                float64
		precision, recall, f1 float64
	}{
		{
			name:       "one reference takes one of two estimates near it",
			references: []float64{1}, estimates: []float64{0.999, 1.001},
			window: 0.005, precision: 0.5, recall: 1, f1: 2.0 / 3,
		},
		{
			name:       "one estimate serves one of two references near it",
			references: []float64{0.999, 1.001}, estimates: []float64{1},
			window: 0.005, precision: 1, recall: 0.5, f1: 2.0 / 3,
		},
		{
			name:       "the first reference leaves the estimate that only the second can have",
			references: []float64{0, 0.008}, estimates: []float64{0.004, -0.003},
			window: 0.005, precision: 1, recall: 1, f1: 1,
		},
		{
			name:       "nothing found of something is an F1 of 0",
			references: []float64{1, 2}, estimates: nil,
			window: 0.005, precision: 1, recall: 0, f1: 0,
		},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			n := countOnsets(c.references, c.estimates, c.window)
			for _, x := range []struct {
				what      string
				got, want float64
			}{{"precision", n.precision(), c.precision}, {"recall", n.recall(), c.recall}, {"F1", n.f1(), c.f1}} {
				if math.Abs(x.got-x.want) > 1e-9 {
					t.Errorf("%s = %.10f, want %.10f", x.what, x.got, x.want)
				}
			}
		})
	}
}

// most is the size of the largest one-to-one pairing, by trying every choice.
func most(near [][]bool, from int, taken map[int]bool) int {
	if from == len(near) {
		return 0
	}
	best := most(near, from+1, taken)
	for e, ok := range near[from] {
		if ok && !taken[e] {
			taken[e] = true
			best = max(best, 1+most(near, from+1, taken))
			delete(taken, e)
		}
	}
	return best
}

func TestMatchIsOneToOneAndAsLargeAsCanBe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows, columns := rapid.IntRange(0, 6).Draw(t, "references"), rapid.IntRange(0, 6).Draw(t, "estimates")
		near := make([][]bool, rows)
		for r := range near {
			near[r] = rapid.SliceOfN(rapid.Bool(), columns, columns).Draw(t, "near")
		}
		of := match(rows, columns, func(r, e int) bool { return near[r][e] })
		used, paired := map[int]bool{}, 0
		for r, e := range of {
			if e < 0 {
				continue
			}
			if used[e] || !near[r][e] {
				t.Fatalf("reference %d paired with %d: taken already or not near, in %v", r, e, of)
			}
			used[e] = true
			paired++
		}
		if want := most(near, 0, map[int]bool{}); paired != want {
			t.Fatalf("%d paired, want %d", paired, want)
		}
	})
}
