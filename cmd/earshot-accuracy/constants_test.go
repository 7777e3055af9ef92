package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

func TestConstantsAreFoundWhereverTheyStand(t *testing.T) {
	file := filepath.Join(t.TempDir(), "some.go")
	const source = `package some

const (
	limit = 3.0 // dB
	twice = 2 * limit
	name  = "no number"
)

func f(x float64) float64 {
	const least = -4
	if x == 0 { return 1 }
	return g(x-7, least)
}
`
	if err := os.WriteFile(file, []byte(source), 0o644); err != nil {
		t.Fatal(err)
	}
	found, err := findConstants(file)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, c := range found {
		got = append(got, c.where+" = "+source[c.from:c.to]+"; "+c.what)
	}
	want := []string{"limit = 3.0; dB", "twice = 2 * limit; ", "f.least = -4; ", "f.`x - 7` = 7; "}
	if !slices.Equal(got, want) {
		t.Errorf("found\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func TestConstantsTimes(t *testing.T) {
	tests := []struct {
		name string
		c    constant
		by   float64
		want []string
	}{
		{"a fraction is halved", constant{text: "0.03"}, 0.5, []string{"0.015"}},
		{"an odd whole number is halved, and rounded up where that does not build", constant{text: "5", whole: true}, 0.5, []string{"2.5", "3"}},
		{"one can't be rounded to another", constant{text: "1", whole: true}, 0.5, []string{"0.5"}},
		{"an expression stays one", constant{text: "2 * limit", expression: true}, 2, []string{"((2 * limit) * 2)"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := test.c.times(test.by); !slices.Equal(got, test.want) {
				t.Errorf("times(%g) of %s = %q, want %q", test.by, test.c.text, got, test.want)
			}
		})
	}
}

func TestEveryConstantNamedInTheListIsInTheSources(t *testing.T) {
	t.Chdir("../..")
	known := map[string]bool{}
	for _, file := range hearingFiles() {
		found, err := findConstants(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range found {
			known[c.key()] = true
		}
	}
	for key := range readSources() {
		if !known[key] {
			t.Errorf("constants.txt names %q, which is in no source: take it out", key)
		}
	}
}
