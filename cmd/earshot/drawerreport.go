package main

import (
	"errors"
	"os"
	"path/filepath"

	"earshot/report"
)

// reportFolder is where a drawer's report lies, below it.
const reportFolder = "report"

// openReport makes the folder of the report, keeps others from writing there and
// clears away what a run that was killed left half written.
func openReport(dir string) (unlock func(), err error) {
	if info, err := os.Lstat(dir); err == nil && !info.IsDir() {
		return nil, fileFault("cannot-write", dir, "the report cannot be written", errors.New("there is something else of that name"), "move it away")
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, cannotWrite(dir, err)
	}
	unlock, err = lock(dir)
	if errors.Is(err, errLocked) {
		return nil, newFault(report.Failure{Code: "in-use", File: dir, Message: "another earshot is at work on this drawer", Hint: "wait until it is done, or stop it"}, err)
	}
	if err != nil {
		return nil, cannotWrite(dir, err)
	}
	left, _ := filepath.Glob(filepath.Join(escapeGlob(dir), ".earshot-*.tmp"))
	for _, name := range left {
		os.Remove(name)
	}
	return unlock, nil
}
