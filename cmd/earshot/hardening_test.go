package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// A row of the page of what was tried says nothing unless its test is there.
func TestEveryRowOfWhatWasTriedHasItsTest(t *testing.T) {
	root := filepath.Join("..", "..")
	page, err := os.ReadFile(filepath.Join(root, "docs", "hardening.md"))
	if err != nil {
		t.Fatal(err)
	}
	there := map[string]bool{}
	function := regexp.MustCompile(`(?m)^func ((?:Test|Fuzz)\w+)\(`)
	for _, top := range []string{"cmd", "dsp", "report", "shutter"} {
		err := filepath.WalkDir(filepath.Join(root, top), func(path string, _ os.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(path, "_test.go") {
				return err
			}
			code, err := os.ReadFile(path)
			for _, m := range function.FindAllSubmatch(code, -1) {
				there[string(m[1])] = true
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	named := regexp.MustCompile("`((?:Test|Fuzz)\\w+)`")
	rows := 0
	for line := range strings.Lines(string(page)) {
		if !strings.HasPrefix(line, "| ") || strings.HasPrefix(line, "| tried") || strings.HasPrefix(line, "| ---") {
			continue
		}
		rows++
		tests := named.FindAllStringSubmatch(line, -1)
		if len(tests) == 0 {
			t.Errorf("no test is named: %s", line)
		}
		for _, m := range tests {
			if !there[m[1]] {
				t.Errorf("there is no %s: %s", m[1], line)
			}
		}
	}
	if rows == 0 {
		t.Error("the page has no rows")
	}
}
