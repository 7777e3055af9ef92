package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"earshot/dsp/outside"
)

const testsOfAHandbook = `package p

import ("testing"; "earshot/dsp/outside")

func TestDirect(t *testing.T) { outside.Exact(t, book(), "n", []int{1}, []int{1}) }
func TestByHelp(t *testing.T) { compare(t) }
func TestByMoreHelp(t *testing.T) { help(t) }
func TestOfSomethingElse(t *testing.T) { _ = book() }
func help(t *testing.T) { compare(t) }
func compare(t *testing.T) { outside.Exact(t, book(), "n", []int{1}, []int{1}) }
func book() outside.Source { return outside.Source{} }
`

func TestTestsThatUseTheOutsideAreFound(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{
		"a_test.go":         testsOfAHandbook,
		"b_test.go":         "package p\n\nimport \"testing\"\n\nfunc TestNothing(t *testing.T) { outside := 1; _ = outside }\n",
		"c.go":              strings.ReplaceAll(testsOfAHandbook, "Test", "TestNot"),
		".hidden/d_test.go": testsOfAHandbook,
	} {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	got, err := findOutside(dir)
	if want := map[string][]string{dir: {"TestDirect", "TestByHelp", "TestByMoreHelp"}}; err != nil || !cmp.Equal(got, want) {
		t.Errorf("found %v, %v, want %v", got, err, want)
	}
	if _, err := findOutside(filepath.Join(dir, ".hidden", "none")); err == nil {
		t.Error("a folder that is not there has tests")
	}
}

func TestARunIsReadAndDoubted(t *testing.T) {
	const (
		attr = `{"Action":"attr","Package":"p","Test":"TestA/one","Key":"outside","Value":"{\"Source\":{\"Name\":\"a handbook\"},\"What\":\"n\",\"Values\":3,\"Exact\":true}"}`
		pass = `{"Action":"pass","Package":"p","Test":"TestA"}`
		said = `{"Action":"output","Package":"p","Test":"TestA","Output":"    a_test.go:7: install Debian's package x to run this\n"}`
		skip = `{"Action":"skip","Package":"p","Test":"TestA"}`
		fail = `{"Action":"fail","Package":"p","Test":"TestA"}`
	)
	for _, c := range []struct {
		name    string
		lines   []string
		wrong   string // part of the error; "": none
		found   int
		skipped []skippedTest
	}{
		{"a finding", []string{attr, pass}, "", 1, nil},
		{"a test left out, with its reason", []string{said, skip}, "", 0, []skippedTest{{"TestA", "p", "install Debian's package x"}}},
		{"a failure", []string{attr, said, fail}, "install Debian's package x", 0, nil},
		{"a test that compares nothing", []string{pass}, "compared nothing", 0, nil},
		{"a test that was not run", nil, "compared nothing", 0, nil},
		{"other attributes are no findings", []string{strings.ReplaceAll(attr, `"outside"`, `"colour"`), pass}, "compared nothing", 0, nil},
		{"what is no JSON", []string{"panic"}, "go test -json", 0, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			a, err := readRun(strings.NewReader(strings.Join(c.lines, "\n")), []string{"TestA"})
			switch {
			case c.wrong == "" && err != nil:
				t.Fatal(err)
			case c.wrong != "" && (err == nil || !strings.Contains(err.Error(), c.wrong)):
				t.Errorf("error %v, want one that says %q", err, c.wrong)
			case c.wrong == "" && (len(a.findings) != c.found || !slices.Equal(a.skipped, c.skipped)):
				t.Errorf("found %+v, skipped %+v", a.findings, a.skipped)
			}
		})
	}
}

func TestThePageSaysWhatAgreedAndWhatDidNotCount(t *testing.T) {
	handbook, library := outside.Source{Name: "a handbook", Figures: "read there"}, outside.Source{Name: "A library", Figures: "run here"}
	page := agreement{
		findings: []outside.Finding{
			{Source: library, What: "means", Values: 2, Digits: 12.39, Held: 9},
			{Source: handbook, What: "points", Values: 1, Digits: 4, Held: 4, Printed: true},
			{Source: library, What: "means", Values: 3, Digits: 14, Held: 9},
			{Source: handbook, What: "points", Values: 1, Digits: 3, Held: 3, Printed: true},
			{Source: library, What: "samples", Values: 9, Exact: true},
			{Source: library, What: "onsets", Values: 90, Alike: 89, Held: 0.95},
			{Source: library, What: "BW64", Apart: "it knows none"},
		},
		skipped: []skippedTest{{"TestB", "p", "install Debian's package x"}},
	}.page()
	_, tables, _ := strings.Cut(page, "\n## ")
	want := `a handbook

Figures: read there.

| compared | values |  digits that agree |     held to |
| -------- | -----: | -----------------: | ----------: |
| points   |      2 | as printed, 3 to 4 | all printed |

## A library

Figures: run here.

| compared | values | digits that agree | held to |
| -------- | -----: | ----------------: | ------: |
| means    |      5 |              12.3 |       9 |
| samples  |      9 |      all, exactly | exactly |
| onsets   |     90 |          89 of 90 |    95 % |

Not compared:

- BW64: it knows none.

## Left out

For want of something on the machine of this run:

- ` + "`TestB`" + ` in p: install Debian's package x
`
	if d := cmp.Diff(want, tables); d != "" {
		t.Errorf("page (-want +got):\n%s", d)
	}
}
