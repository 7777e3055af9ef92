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

// reading is a run as far as it is read.
type reading struct {
	agreement
	said map[string]string // by test, its subtests' too
	held map[string]bool   // tests that compared something, or said why not
}

// readRun reads the output of go test -json. A failure is an error, and so is a test that passed
// without a comparison.
func readRun(out io.Reader, tests []string) (agreement, error) {
	r := reading{said: map[string]string{}, held: map[string]bool{}}
	for in := json.NewDecoder(out); ; {
		var e event
		err := in.Decode(&e)
		if err == io.EOF {
			break
		}
		if err != nil {
			return r.agreement, fmt.Errorf("go test -json: %w", err)
		}
		if err := r.take(e); err != nil {
			return r.agreement, err
		}
	}
	for _, test := range tests {
		if !r.held[test] {
			return r.agreement, fmt.Errorf("%s compared nothing", test)
		}
	}
	return r.agreement, nil
}

func (r *reading) take(e event) error {
	test, _, _ := strings.Cut(e.Test, "/")
	switch e.Action {
	case "output", "build-output":
		r.said[test] += e.Output
	case "fail", "build-fail":
		return fmt.Errorf("%s failed:\n%s", test, r.said[test])
	case "skip":
		r.held[test] = true
		r.skipped = append(r.skipped, skippedTest{e.Test, e.Package, reason(r.said[test])})
	case "attr":
		if e.Key != outside.Key {
			return nil
		}
		var f outside.Finding
		if err := json.Unmarshal([]byte(e.Value), &f); err != nil {
			return fmt.Errorf("%s: %w", e.Test, err)
		}
		r.held[test] = true
		r.findings = append(r.findings, f)
	}
	return nil
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
