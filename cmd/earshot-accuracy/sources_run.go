package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"earshot/dsp/outside"
)

// agreement is what came of the tests that hold figures against the outside.
type agreement struct {
	findings []outside.Finding // in the order of the run
	skipped  []skippedTest
}

// skippedTest is a test that this machine could not run.
type skippedTest struct{ test, pkg, why string }

func (s skippedTest) String() string { return fmt.Sprintf("`%s` in %s: %s", s.test, s.pkg, s.why) }

// runOutside runs the tests, by the folders of their packages, and fails where one does.
func runOutside(tests map[string][]string) (agreement, error) {
	var all agreement
	for _, dir := range slices.Sorted(maps.Keys(tests)) {
		var stderr bytes.Buffer
		cmd := exec.Command("go", "test", "-json", "-count=1", "-run", "^("+strings.Join(tests[dir], "|")+")$", "./"+filepath.ToSlash(dir))
		cmd.Stderr = &stderr
		out, err := cmd.Output()
		var ended *exec.ExitError
		if err != nil && !errors.As(err, &ended) {
			return all, err
		}
		one, failed := readRun(bytes.NewReader(out), tests[dir])
		if failed == nil && err != nil {
			failed = fmt.Errorf("%w: %s", err, stderr.Bytes())
		}
		if failed != nil {
			return all, fmt.Errorf("%s: %w", dir, failed)
		}
		all.findings = append(all.findings, one.findings...)
		all.skipped = append(all.skipped, one.skipped...)
	}
	return all, nil
}

// event is a line of what go test -json writes.
type event struct{ Action, Package, Test, Output, Key, Value string }

// readRun reads what go test -json wrote of some tests. A failure is an error, and so
// is a test that passed and held nothing against anything.
func readRun(out io.Reader, tests []string) (agreement, error) {
	var a agreement
	said, held := map[string]string{}, map[string]bool{}
	for in := json.NewDecoder(out); ; {
		var e event
		if err := in.Decode(&e); err == io.EOF {
			break
		} else if err != nil {
			return a, fmt.Errorf("go test -json: %w", err)
		}
		test, _, sub := strings.Cut(e.Test, "/")
		switch e.Action {
		case "output":
			said[test] += e.Output
		case "build-output":
			said[""] += e.Output
		case "fail", "build-fail":
			return a, fmt.Errorf("%s failed:\n%s", test, said[test])
		case "skip":
			if test != "" {
				held[test] = true
				a.skipped = append(a.skipped, skippedTest{e.Test, e.Package, reason(said[test])})
			}
		case "attr":
			var f outside.Finding
			if e.Key != outside.Key {
				continue
			}
			if err := json.Unmarshal([]byte(e.Value), &f); err != nil {
				return a, fmt.Errorf("%s: %w", e.Test, err)
			}
			held[test] = true
			a.findings = append(a.findings, f)
		case "pass":
			if test != "" && !sub && !held[test] {
				return a, fmt.Errorf("%s passed and held nothing against its source", test)
			}
		}
	}
	for _, test := range tests {
		if !held[test] {
			return a, fmt.Errorf("%s was not run", test)
		}
	}
	return a, nil
}

var saidBySkip = regexp.MustCompile(`(?m)^ +\w+_test\.go:\d+: (.*)$`)

// reason is what a test that was skipped said last.
func reason(said string) string {
	all := saidBySkip.FindAllStringSubmatch(said, -1)
	if len(all) == 0 {
		return "no reason given"
	}
	return strings.TrimSuffix(all[len(all)-1][1], " to run this")
}
