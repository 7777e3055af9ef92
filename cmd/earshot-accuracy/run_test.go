package main

import (
	"bytes"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

func TestExitCodes(t *testing.T) {
	cases := []struct {
		name   string
		args   []string
		code   int
		stderr string
	}{
		{"help is no failure", []string{"-h"}, exitMet, "-condition"},
		{"an unknown flag is misuse", []string{"-what"}, exitUsage, "not defined"},
		{"an argument is misuse", []string{"extra"}, exitUsage, `unexpected argument "extra"`},
		{"a condition there is none of is named with those there are", []string{"-condition", "underwater"}, exitMissed, "white noise, 40 dB"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var stdout, stderr bytes.Buffer
			if code := run(c.args, &stdout, &stderr); code != c.code || !strings.Contains(stderr.String(), c.stderr) {
				t.Errorf("run(%q) = %d, %q, want %d and %q", c.args, code, stderr.String(), c.code, c.stderr)
			}
		})
	}
}

func TestOneConditionWritesNoPage(t *testing.T) {
	dir := t.TempDir()
	page := filepath.Join(dir, "accuracy.md")
	var stdout, stderr bytes.Buffer
	code := run([]string{"-condition", "one firing", "-out", page, "-wav", filepath.Join(dir, "clips")}, &stdout, &stderr)
	if code != exitMet || !strings.Contains(stdout.String(), "| one firing |") {
		t.Fatalf("run = %d, %q, %q, want 0 and a table", code, stdout.String(), stderr.String())
	}
	if _, err := os.Stat(page); err == nil {
		t.Error("a page was written from one condition alone")
	}
}

func TestEqualSeedsGiveEqualPages(t *testing.T) {
	some, err := choose(conditions(), "one firing")
	if err != nil {
		t.Fatal(err)
	}
	page := func(seed uint64) string {
		outcomes, err := hearAll(some, seed)
		if err != nil {
			t.Fatal(err)
		}
		return newResults(some, outcomes).page(1)
	}
	first := page(1)
	if page(1) != first {
		t.Error("the same seed gives another page")
	}
	if page(2) == first {
		t.Error("another seed gives the same page")
	}
}

func TestConditionsAreDistinctAndOwnTheirSeeds(t *testing.T) {
	all := conditions()
	names, seeds := map[string]bool{}, map[uint64]string{}
	for _, c := range all {
		if names[c.name] {
			t.Errorf("two conditions are called %q", c.name)
		}
		names[c.name] = true
		for clip := range c.clips {
			r := c.recording(1, clip)
			if other := seeds[r.Seed]; other != "" {
				t.Errorf("%s and %s share a seed", c.name, other)
			}
			seeds[r.Seed] = c.name
			if again := c.recording(1, clip); !reflect.DeepEqual(r, again) {
				t.Errorf("%s, clip %d, is another recording the second time", c.name, clip)
			}
		}
	}
}

func TestATargetMissedFailsTheRun(t *testing.T) {
	good := func() *results {
		c, q, all := newTally("good", core), newTally("still", quiet), newTally("", "")
		for i := range c.counts {
			c.counts[i], all.counts[i] = count{200, 200, 200}, count{800, 800, 800}
		}
		c.errors = make([]float64, 200)
		return &results{conditions: []*tally{c, q}, core: c, whole: all}
	}
	if r := good(); !r.met() {
		t.Fatalf("perfect results miss a target:\n%s", r.reached())
	}
	last := len(windows()) - 1
	cases := []struct {
		name  string
		spoil func(r *results)
	}{
		{"recall below 0.99", func(r *results) { r.core.counts[last] = count{200, 197, 197} }},
		{"precision below 0.99", func(r *results) { r.core.counts[last] = count{200, 203, 200} }},
		{"recall of all together below 0.99", func(r *results) { r.whole.counts[last] = count{800, 790, 790} }},
		{"precision of all together below 0.99", func(r *results) { r.whole.counts[last] = count{800, 810, 800} }},
		{"one condition poor", func(r *results) {
			poor := newTally("poor", core)
			poor.counts[last] = count{18, 18, 17}
			r.conditions = append(r.conditions, poor)
		}},
		{"one duration in ten off by 0.2 ms either way", func(r *results) {
			for i := range r.core.errors {
				r.core.errors[i] = []float64{0.2e-3, 0, 0, 0, 0, -0.2e-3, 0, 0, 0, 0}[i%10]
			}
		}},
		{"all durations short by 0.03 ms", func(r *results) {
			for i := range r.core.errors {
				r.core.errors[i] = -0.03e-3
			}
		}},
		{"one firing in the noise", func(r *results) { r.conditions[1].counts[last] = count{0, 1, 0} }},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r := good()
			c.spoil(r)
			if r.met() {
				t.Errorf("every target met:\n%s", r.reached())
			}
		})
	}
}
